"""The living archive of a collection of trained trees: dated evidence in, an honest public record out."""

__version__ = "0.1.0"
