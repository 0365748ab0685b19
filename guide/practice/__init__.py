"""Model doors to practise on: what may be done at them, and how it is judged."""
