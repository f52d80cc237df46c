"""An edition's view and its pictures turned into pages and exports; knows no site engine."""
