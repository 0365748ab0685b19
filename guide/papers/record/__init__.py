"""The record of a job: what it holds, and how it is written down."""
