"""The trade's computations."""
