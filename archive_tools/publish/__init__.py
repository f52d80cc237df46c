"""An edition's view and its pictures turned into pages and exports; knows no site engine."""

from archive_tools.publish.site import make_site

__all__ = ["make_site"]
