"""What is refused in the structure of a file, each with its exact place."""

from __future__ import annotations

import pytest

from benchleaf.diagnose import Finding, Place, Related
from benchleaf.read import Listing, Mapping, Node, Scalar, child, parse, plain


def problems(text: str) -> tuple[Finding, ...]:
    return parse(text, "f.yml")[1]


def only(text: str) -> Finding:
    (finding,) = problems(text)
    return finding


def place(line: int, column: int) -> Place:
    return Place("f.yml", line, column)


def test_every_value_and_key_knows_its_place() -> None:
    text = "id: a\nsteps:\n  - title: b\n    points: [c, 'd']\n  - e: |\n      f\n"
    tree, findings = parse(text, "f.yml")
    assert findings == ()
    assert tree == Mapping(
        (
            (Scalar("id", place(1, 1)), Scalar("a", place(1, 5))),
            (
                Scalar("steps", place(2, 1)),
                Listing(
                    (
                        Mapping(
                            (
                                (Scalar("title", place(3, 5)), Scalar("b", place(3, 12))),
                                (
                                    Scalar("points", place(4, 5)),
                                    Listing(
                                        (Scalar("c", place(4, 14)), Scalar("d", place(4, 17))),
                                        place(4, 13),
                                    ),
                                ),
                            ),
                            place(3, 5),
                        ),
                        Mapping(
                            ((Scalar("e", place(5, 5)), Scalar("f\n", place(5, 8))),), place(5, 5)
                        ),
                    ),
                    place(3, 3),
                ),
            ),
        ),
        place(1, 1),
    )


def test_columns_count_characters_not_bytes() -> None:
    finding = only("{a: ±±±, a: 2}\n")
    assert finding.place == place(1, 10)


def test_a_key_written_twice_keeps_the_first_and_shows_both() -> None:
    tree, (finding,) = parse("a: 1\nb: 2\na: 3\n", "f.yml")
    assert tree is not None
    assert plain(tree) == {"a": "1", "b": "2"}
    assert (finding.code, finding.place) == ("R108", place(3, 1))
    assert finding.related == (Related(place(1, 1), "written first here"),)


def test_the_same_key_in_two_mappings_is_no_repeat() -> None:
    assert problems("a:\n  x: 1\nb:\n  x: 2\n") == ()


def test_a_repeated_key_deep_in_a_list_is_found() -> None:
    finding = only("steps:\n  - points:\n      - point: a\n        point: b\n")
    assert (finding.code, finding.place) == ("R108", place(4, 9))


def test_anchors_aliases_and_merge_keys_are_refused_where_they_stand() -> None:
    found = problems("a: &x\n  b: 1\nc: *x\nd:\n  <<: *x\n")
    assert {(each.code, each.place) for each in found if each.code != "R112"} == {
        ("R109", place(1, 4)),
        ("R109", place(3, 4)),
        ("R109", place(5, 3)),
        ("R109", place(5, 7)),
    }
    assert "'&x'" in found[0].text


def test_an_alias_bomb_is_not_expanded() -> None:
    lines = ["a0: &a0 [x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    tree, found = parse("\n".join(lines), "f.yml")
    assert {finding.code for finding in found} == {"R109"}
    assert tree is not None
    assert len(str(plain(tree))) < 1000


@pytest.mark.parametrize("tag", ["!!int", "!!python/object/apply:os.system", "!secret", "!<x>"])
def test_tags_are_refused(tag: str) -> None:
    finding = next(each for each in problems(f"a: 1\nb: {tag} '2'\n") if each.code == "R111")
    assert finding.place == place(2, 4)


def test_a_tag_is_quoted_as_it_was_written() -> None:
    assert "'!!int'" in only("a: !!int '2'\n").text


def test_one_tag_is_one_finding() -> None:
    assert [finding.code for finding in problems("a: !!str x\n")] == ["R111"]


def test_a_second_document_is_refused_at_its_line() -> None:
    tree, (finding,) = parse("a: 1\n---\nb: 2\n", "f.yml")
    assert tree is None
    assert (finding.code, finding.place) == ("R110", place(2, 1))


def test_one_document_may_be_marked_at_both_ends() -> None:
    tree, findings = parse("---\na: 1\n...\n", "f.yml")
    assert findings == ()
    assert tree is not None
    assert plain(tree) == {"a": "1"}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", "nothing"),
        ("# only this\n", "nothing"),
        ("~\n", "nothing"),
        ("- a\n", "a list"),
        ("words\n", "plain text"),
        ("''\n", "plain text"),
    ],
)
def test_a_file_that_holds_no_record(text: str, found: str) -> None:
    tree, (finding,) = parse(text, "f.yml")
    assert tree is None
    assert (finding.code, finding.place) == ("R110", place(1, 1))
    assert f"{found} is here" in finding.text


def nested_flow(levels: int) -> str:
    return "a: " + "[" * levels + "x" + "]" * levels + "\n"


def nested_block(levels: int) -> str:
    return "".join(f"{'  ' * level}k{level}:\n" for level in range(levels)) + "  " * levels + "x\n"


@pytest.mark.parametrize("write", [nested_flow, nested_block])
def test_twelve_levels_are_read_and_one_more_is_not(write: object) -> None:
    assert callable(write)
    # The mapping at the top of the flow text is a level of its own.
    reach = 11 if write is nested_flow else 12
    tree, findings = parse(write(reach), "f.yml")
    assert findings == ()
    assert tree is not None
    assert depth(tree) == 12
    tree, (finding,) = parse(write(reach + 1), "f.yml")
    assert tree is None
    assert finding.code == "R104"


def depth(node: Node) -> int:
    if isinstance(node, Mapping):
        return 1 + max(depth(value) for _, value in node.entries)
    return 1 + max(map(depth, node.items)) if isinstance(node, Listing) else 0


def test_too_deep_names_the_bracket_that_is_one_too_many() -> None:
    finding = only(nested_flow(20))
    assert finding.place == place(1, 4 + 11)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "a: " + "[" * 100_000,
        "a: " + "{a: " * 100_000,
        "- " * 100_000,
        "? " * 50_000,
        "]" * 100_000,
        "".join(" " * level + "-\n" for level in range(1200)),
    ],
    ids=["brackets", "value", "braces", "dashes", "keys", "closing", "staircase"],
)
def test_absurd_depth_is_a_finding_and_no_crash(text: str) -> None:
    tree, findings = parse(text, "f.yml")
    assert tree is None
    assert {finding.code for finding in findings} <= {"R104", "R107", "R112"}
    assert findings


@pytest.mark.parametrize(
    ("text", "where", "cure"),
    [
        ("a: b: c\n", (1, 5), 'in quotes: a: "b: c"'),
        ("a: 1\n b: 2\n", (2, 3), "one column"),
        ("a: @x\n", (1, 4), "quote"),
        ("a: `x`\n", (1, 4), "quote"),
        ("a: %x\n", (1, 4), "quote"),
    ],
)
def test_a_slip_of_yaml_is_placed_and_has_a_cure(
    text: str, where: tuple[int, int], cure: str
) -> None:
    finding = only(text)
    assert (finding.code, finding.place) == ("R107", place(*where))
    assert cure in finding.help[0]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('a: 1\nb: "open\nc: 3\nd: 4\n', 2),
        ("a: 1\nb: [open\nc: 3\nd: 4\n", 2),
        ("a: 1\nb\nc: 3\nd: 4\n", 2),
        ("a:\n  - one\n  two\nb: 3\n", 3),
    ],
    ids=["quote", "bracket", "colon", "dash"],
)
def test_a_slip_is_placed_where_it_was_made_or_shows_that_line_too(text: str, line: int) -> None:
    """An editor looks where the finding points, not three lines further down."""
    finding = only(text)
    assert line in {finding.place.line, *(other.place.line for other in finding.related)}


@pytest.mark.parametrize("text", ["*Ask* first", "**Ask** first"])
def test_a_text_that_starts_with_emphasis_is_told_to_use_quotes(text: str) -> None:
    assert any("quote" in line for line in only(f"a: {text}\n").help)


def test_a_text_that_starts_with_a_link_is_told_to_use_quotes() -> None:
    assert any("quote" in line for line in only("a: [[TR-0140]] first\n").help)


def test_a_list_as_a_key_does_not_shift_the_keys_after_it() -> None:
    tree, findings = parse("a: 1\n[x, y]: 2\nb: 3\nc: 4\n", "f.yml")
    assert [(each.code, each.place) for each in findings] == [("R107", place(2, 1))]
    assert [text_under(tree, key) for key in "abc"] == ["1", "3", "4"]


def test_an_alias_as_a_key_does_not_shift_the_keys_after_it() -> None:
    tree, _ = parse("a: &x 1\n*x : 2\nb: 3\n", "f.yml")
    assert [text_under(tree, key) for key in "ab"] == ["1", "3"]


def text_under(tree: Node | None, key: str) -> str | None:
    value = child(tree, key) if tree is not None else None
    return value.text if isinstance(value, Scalar) else None
