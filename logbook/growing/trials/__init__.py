"""Trials that can be believed: setting up, likeness, judging, tasting, weighing up."""
