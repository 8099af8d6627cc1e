"""Stop 1: YAML text to trees of values that remember file, line and column."""

from .codes import CODES
from .document import Document, Source, document_of, read_document, with_tree
from .folder import CHANGED_FOLDER, Contents, read_content, read_crew
from .front_matter import settings_in_page
from .layout_table import LAYOUTS_FILE, read_layouts
from .parser import parse
from .photographs import Photograph, prepared
from .pictures import PICTURE_TYPES, read_pages, read_pictures, read_sheets
from .revision import Repository, RevisionError, repository_of
from .site_settings import check_settings
from .text_file import hidden_entities, read_text
from .tidy import tidied, without
from .tree import Listing, Mapping, Node, Path, Scalar, child, key_place, plain

__all__ = [
    "CHANGED_FOLDER",
    "CODES",
    "LAYOUTS_FILE",
    "PICTURE_TYPES",
    "Contents",
    "Document",
    "Listing",
    "Mapping",
    "Node",
    "Path",
    "Photograph",
    "Repository",
    "RevisionError",
    "Scalar",
    "Source",
    "check_settings",
    "child",
    "document_of",
    "hidden_entities",
    "key_place",
    "parse",
    "plain",
    "prepared",
    "read_content",
    "read_crew",
    "read_document",
    "read_layouts",
    "read_pages",
    "read_pictures",
    "read_sheets",
    "read_text",
    "repository_of",
    "settings_in_page",
    "tidied",
    "with_tree",
    "without",
]
