"""The tests, a folder for each part of the program; helpers are imported by their full names."""
