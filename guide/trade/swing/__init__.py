"""A model of how a door closes and how hard it is to open."""
