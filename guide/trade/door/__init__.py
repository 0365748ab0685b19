"""The leaf and its opening: hand, hinges, mass, widths, what presses on it."""
