"""What a person may look up beside a step: the trade's words, tools and parts, the closer's sheet, the tests so far."""
