"""Files in, values of the model out; every problem with its place in the file.

`read_collection` is the way in; everything else here serves it. One file a subject: `text_files` (bytes to
text), `yaml_text` (text to values with their places), `schema_*` (what each record may say), `validation`
(values against a schema), `trees`, `notes`, `photos`, `records`, `settings`, `pages` (files to the model),
`shared` (what concerns several trees), `whole` (the order of all this).
"""

from archive_tools.read.photo_files import FactsCache
from archive_tools.read.read_ahead import read_ahead
from archive_tools.read.whole import find_collection, read_collection, read_pages

__all__ = ["FactsCache", "find_collection", "read_ahead", "read_collection", "read_pages"]
