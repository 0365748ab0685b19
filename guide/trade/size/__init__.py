"""Which size of closer a leaf needs, and how its spring is set."""
