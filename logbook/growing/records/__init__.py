"""Records that rules ask for: what each must hold, by the names of the rule."""
