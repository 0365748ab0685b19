"""The words and keys a person commands the guide with."""

from guide.words.commands import COMMANDS, Command, by_name, by_word

__all__ = ["COMMANDS", "Command", "by_name", "by_word"]
