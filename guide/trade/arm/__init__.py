"""The closer's arm in plan: linkage, spring, moments, clearances."""
