"""The checker's rules, its findings and its manual."""
