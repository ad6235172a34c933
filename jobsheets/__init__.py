"""Operation sheets for small fitted parts on a manual lathe and mill."""

__version__ = "0.1.0"
