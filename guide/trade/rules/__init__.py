"""Access and fire rules, each with its country, edition and citation."""
