"""Long trials by seed, run by hand as `python -m tests.campaigns.NAME`, and their samples."""
