"""Stories on the screens, through Textual's Pilot."""
