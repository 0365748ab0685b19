"""The checker's proof compared with every real run."""
