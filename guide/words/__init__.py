"""The words and keys a person commands the guide with."""

from guide.words.commands import ANSWERS, COMMANDS, Command, by_name, by_word

__all__ = ["ANSWERS", "COMMANDS", "Command", "by_name", "by_word"]
