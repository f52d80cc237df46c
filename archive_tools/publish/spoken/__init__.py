"""What is said on a walk: the words at each stop, and all that is made of them and of the plan."""

from archive_tools.publish.spoken.stop_text import languages_of, said_at, stop_name, stop_texts

__all__ = ["languages_of", "said_at", "stop_name", "stop_texts"]
