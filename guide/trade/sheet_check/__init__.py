"""What is unlikely in a closer's sheet that can be read: the numbers most likely mistyped."""
