"""Where the content's files are edited, from the engine's own options."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig


def edit_base(config: MkDocsConfig) -> str:
    """The address of the repository's top at which a file is edited, with a slash at its end.

    `edit_uri` speaks of the folder of free pages, alone or after `repo_url`; the files of the
    manual are named from the top. Empty where neither is set to an address of the web.
    """
    uri, repo = config.edit_uri or "", config.repo_url or ""
    joined = uri if "://" in uri else f"{repo.rstrip('/')}/{uri}" if repo and uri else ""
    if not joined.startswith(("https://", "http://")):
        return ""
    base = joined.rstrip("/") + "/"
    top = Path(config.config_file_path or "mkdocs.yml").resolve().parent
    docs = Path(config.docs_dir)
    below = docs.relative_to(top).as_posix() if docs.is_relative_to(top) else ""
    for folder in (below, "docs"):  # the second: what the engine supposes where nothing is said
        if folder and base.endswith(f"/{folder}/"):
            return base.removesuffix(f"{folder}/")
    return base
