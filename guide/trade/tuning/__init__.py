"""What to turn next, from what the tests of a door showed."""
