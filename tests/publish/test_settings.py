"""Settings of mkdocs.yml: those put right by themselves, and those refused with a line to write."""

from __future__ import annotations

import logging
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.structure.files import Files

from benchleaf.diagnose import report
from benchleaf.engine.theme import leave_out_theme, theme_sheet
from benchleaf.read import check_settings

Written = Callable[[str], Path]
LEAST = "site_name: x\ndocs_dir: content/pages\nplugins: [benchleaf]\n"


@pytest.fixture
def written(shop: Callable[..., Path]) -> Written:
    """`written(text)` is an mkdocs.yml of that text beside the small shop."""

    def write(text: str) -> Path:
        path = shop().parent / "mkdocs.yml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def prepared(path: Path) -> MkDocsConfig:
    """The engine's settings once the plugin has seen them."""
    config = load_config(str(path))
    plugin = config.plugins["benchleaf"]
    plugin.on_startup(command="serve", dirty=False)
    config.site_dir = str(path.parent / "site")
    done = plugin.on_config(config)
    assert done is not None
    return done


@pytest.mark.parametrize(
    "text",
    [
        LEAST,
        LEAST + "use_directory_urls: true\n",
        LEAST + "theme: readthedocs\n",
        LEAST + "theme: {name: null, custom_dir: content}\n",
        LEAST.replace("docs_dir: content/pages", "docs_dir: content/pictures"),
    ],
)
def test_what_has_one_right_value_needs_no_care(written: Written, text: str) -> None:
    path = written(text)
    config = prepared(path)
    assert config.use_directory_urls is False
    assert Path(config.docs_dir) == path.parent / "content/pages"
    assert config.extra["benchleaf"]["sheets"][0].endswith("/benchleaf.css")


def test_of_a_theme_free_pages_take_its_style_and_nothing_else(written: Written) -> None:
    """The default theme of the engine has no sheet that we know: free pages do without."""
    known = prepared(written(LEAST + "theme: material\n"))
    imports = theme_sheet(known).splitlines()
    assert [re.sub(r".*/(\w+)\..*", r"\1", one) for one in imports] == ["main", "palette"]
    assert all(one.endswith("layer(theme);") for one in imports)
    assert len(known.extra["benchleaf"]["free_sheets"]) == 2
    files = Files([])
    files.add_files_from_theme(known.theme.get_env(), known)
    assert any(file.src_uri.endswith(".js") for file in files)
    leave_out_theme(files, known)
    assert {file.src_uri.split(".")[0] for file in files if "assets/" in file.src_uri} == {
        "assets/stylesheets/main",
        "assets/stylesheets/palette",
    }
    other = prepared(written(LEAST))
    assert theme_sheet(other) == ""
    assert other.extra["benchleaf"]["free_sheets"] == ()


WRONG = [
    (
        "docs_dir: content/pages",
        "docs_dir: content",
        "free pages are read from content/pages/ alone",
        "write the line: docs_dir: content/pages",
    ),
    (
        "docs_dir: content/pages",
        "docs_dir: other",
        "docs_dir names other/",
        "move its pages to content/pages/, and write the line: docs_dir: content/pages",
    ),
    (
        "docs_dir: content/pages",
        "docs_dir: content/pages\nsite_dir: content/hazards",
        "a build would write over the content",
        "write the line: site_dir: site",
    ),
    (
        "plugins: [benchleaf]",
        "plugins: [{benchleaf: {machine: bench-dril}}]",
        "machine names 'bench-dril', and there is no such machine",
        "did you mean 'bench-drill'? machines: bench-drill",
    ),
]


@pytest.mark.parametrize(("old", "new", "said", "cure"), WRONG)
def test_what_contradicts_is_refused_with_the_line_to_write(
    written: Written, caplog: pytest.LogCaptureFixture, old: str, new: str, said: str, cure: str
) -> None:
    path = written(LEAST.replace(old, new))
    (path.parent / "other").mkdir()
    (path.parent / "other/a.md").write_text("# A", encoding="utf-8")
    config = load_config(str(path))
    plugin = config.plugins["benchleaf"]
    plugin.on_startup(command="build", dirty=False)
    with caplog.at_level(logging.ERROR), pytest.raises(PluginError, match="1 error"):
        plugin.on_config(config)
    assert caplog.text.count("P707") == 1
    assert said in caplog.text
    assert cure in caplog.text


@pytest.mark.parametrize(
    ("option", "said"),
    [
        ("edition: both", "write the line: edition: kiosk"),
        ("contnet: x", "did you mean 'content'?"),
        ("overrides: nowhere", "make that folder, or take the line out"),
        ("crew_dir: [a]", "write the line: crew_dir: FOLDER"),
    ],
)
def test_a_wrong_option_is_refused_with_the_line_to_write(
    written: Written, caplog: pytest.LogCaptureFixture, option: str, said: str
) -> None:
    path = written(LEAST.replace("[benchleaf]", f"[{{benchleaf: {{{option}}}}}]"))
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        load_config(str(path))
    assert caplog.text.count("option '") == 1
    assert said in caplog.text


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("plugins: [benchleaf]\n", ["site_name: Our manual", "docs_dir: content/pages"]),
        ("site_name: x\nplugins:\n- benchleaf:\n", ["docs_dir: content/pages"]),
        ("site_name: x\ndocs_dir: content/pages\n", ["plugins: [benchleaf]"]),
        ("site_name: x\ndocs_dir: a\n# - benchleaf\n", ["plugins: [benchleaf]"]),
        (LEAST, []),
        ('site_name: x\ndocs_dir: a\nplugins:\n  - "benchleaf":\n      edition: full\n', []),
        ("INHERIT: other.yml\n", []),
    ],
)
def test_the_check_names_what_the_engine_needs_before_any_plugin(
    written: Written, text: str, lines: list[str]
) -> None:
    found = check_settings(written(text).parent / "content")
    assert [one.help[0].removeprefix("write the line: ") for one in found] == lines
    assert {one.code for one in found} <= {"P707"}
    assert "Traceback" not in report(found)


def test_content_without_settings_beside_it_is_no_fault(shop: Callable[..., Path]) -> None:
    assert check_settings(shop()) == ()
