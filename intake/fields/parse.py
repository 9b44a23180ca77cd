"""The lines of a tag become its fields."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from statistics import median

from intake.fields.amounts.ball_count import balls_of, find_packs
from intake.fields.amounts.garment_rows import without_garment_rows
from intake.fields.amounts.quantities import find_quantities
from intake.fields.amounts.tools import find_tools
from intake.fields.amounts.weight import find_weight, is_weight_word, length_note
from intake.fields.bare import doubt_bare
from intake.fields.captions import (
    Caption,
    Role,
    ends_request,
    find_captions,
    has_own_label,
    may_have_label,
)
from intake.fields.care.events import VOCABULARY as CARE_WORDS
from intake.fields.care.words import find_care, lines_of_care
from intake.fields.choose import choose
from intake.fields.clutter import (
    about_other_things,
    behind_copyright,
    find_addresses,
    find_clutter,
    find_dates,
    heads_address,
    is_town_below,
    web_letters,
    web_names,
)
from intake.fields.codes import code_and_name, leading_code, whole_name
from intake.fields.fibre.languages import fibres_by_language
from intake.fields.fibre.names import FILLERS
from intake.fields.fibre.print import VOCABULARY as FIBRE_WORDS
from intake.fields.fibre.shares import find_fibre, find_fibre_among
from intake.fields.fibre.strokes import find_fibre_in_strokes
from intake.fields.fragments import doubt_fragments
from intake.fields.left_over import parted_halves
from intake.fields.letters import WORD, Folded
from intake.fields.linked import Link
from intake.fields.links import is_answered, link
from intake.fields.lot import find_lot, lot_fit
from intake.fields.lot_advice import advises_on_lots
from intake.fields.missing import ask_beside_captions, doubt_loose_kinds, explain_missing
from intake.fields.names.colour_words import is_plain_colour
from intake.fields.names.heading_pieces import heading_pieces
from intake.fields.names.headings import Headings, Surroundings, headings
from intake.fields.names.leads import house_made_for, is_town_of_maker, leads_to_name
from intake.fields.names.maker import find_maker
from intake.fields.names.no_names import names_kit
from intake.fields.names.shade import find_shade, shade_fit
from intake.fields.names.shade_doubts import ask_beside_headings
from intake.fields.names.stacks import may_go_on
from intake.fields.names.trade_words import (
    has_firm_word,
    has_trade_word,
    is_only_trade,
    is_place,
    is_service_text,
)
from intake.fields.names_left import ask_for_names_left
from intake.fields.origin import find_origin
from intake.fields.pieces import Frame, Piece, find_pieces, frame_of, meet, opens_line
from intake.fields.rows import (
    fibres_in_rows,
    row_order,
    shares_in_rows,
    table_values,
    with_column_captions,
)
from intake.records import FIELDS, OTHER_FIELDS, Barcode, Candidate, Field, Line, Span, State
from intake.wording import value_text

_BARCODE_CONFIDENCE = 0.9995
"""A retail barcode carries a check digit; zxing-cpp reports none that fails it."""


def parse(lines: Sequence[Line], barcodes: Sequence[Barcode]) -> dict[str, Field]:
    """Every field of a tag (all of :data:`FIELDS`), from its lines and barcodes."""
    of_ball = without_garment_rows(lines)
    worded = _worded(lines, of_ball)
    packs = find_packs(lines)
    identity = _identity(lines, barcodes, [*_best(worded), *packs])
    found = [*worded, *identity.candidates]
    fields = {
        name: choose(name, [one for one in found if one.name == name], lines) for name in FIELDS
    }
    fields |= {name: _or_nothing(fields[name]) for name in OTHER_FIELDS}
    fields["barcode"] = _barcode(barcodes)
    fields["balls"] = balls_of(packs, lines, fields)
    fields = _with_length_note(fields)
    fields = doubt_fragments(fields, lines, identity.explained)
    fields = doubt_loose_kinds(fields, of_ball)
    fields = ask_for_names_left(fields, lines)
    fields = doubt_bare(fields, lines)
    fields = ask_beside_captions(fields, identity.idle)
    return explain_missing(fields, lines)


@dataclass(frozen=True, slots=True)
class _Identity:
    """What captions and place give away: candidates, the captions that announce nothing
    (each with its text), and all print that is known for something."""

    candidates: list[Candidate]
    idle: list[tuple[Caption, str]]
    explained: list[Span]


def _worded(lines: Sequence[Line], of_ball: Sequence[Line]) -> list[Candidate]:
    """Candidates of the fields that their own words give away; ``of_ball`` are ``lines`` without
    those that tell of garments."""
    found = [
        candidate for finder in (find_weight, find_quantities) for candidate in finder(of_ball)
    ]
    finders = (find_care, find_origin, find_tools)
    found += [candidate for finder in finders for candidate in finder(lines)]
    found = [one for one in found if not _is_of_kit(one, lines)]
    fibres = find_fibre(lines)
    if not fibres or fibres[0].doubt:
        fibres = (
            _fibre_in_rows(lines)
            or fibres_by_language(lines)
            or find_fibre_in_strokes(lines)
            or fibres
        )
    return [*found, *fibres]


def _is_of_kit(candidate: Candidate, lines: Sequence[Line]) -> bool:
    """Whether a word for a weight is a part of what a kit makes: "Ski sock kit"."""
    said = [lines[span.line].text for span in candidate.spans]
    return candidate.name.startswith("weight") and any(names_kit(text) for text in said)


def _fibre_in_rows(lines: Sequence[Line]) -> list[Candidate]:
    """The composition of a tag that is set as a table, its shares beside the names."""
    values = table_values(lines, find_captions(lines))
    orders = (row_order(lines, values) if values else [], shares_in_rows(lines))
    for order in (fibres_in_rows(lines), *orders):
        found = find_fibre_among(lines, order)
        if found and not found[0].doubt:
            return found
    return []


def _best(candidates: Sequence[Candidate]) -> list[Candidate]:
    """Of each field the candidates with its best value, wherever it stands."""
    values = {one.name: one.value for one in reversed(candidates)}
    return [one for one in candidates if one.value == values[one.name]]


@dataclass(frozen=True, slots=True)
class _Layout:
    """How captions and place account for the print: what each caption announces, the pieces
    that nothing accounts for (``free`` those of them that may name something, ``left`` all), and
    all print that is known for something."""

    captions: list[Caption]
    links: list[Link]
    free: list[Piece]
    left: list[Piece]
    explained: list[Span]


def heading_options(lines: Sequence[Line], barcodes: Sequence[Barcode]) -> Headings:
    """The options for maker and range on a tag, for fitting the model that chooses."""
    worded = _best(_worded(lines, without_garment_rows(lines)))
    layout = _layout(lines, barcodes, worded)
    around = _surroundings(lines, layout, worded)
    return headings(heading_pieces(layout.free, around), around)


_HEADING = 0.8
"""Print of at least this share of the tallest line may be a heading."""

_IDENTITY = frozenset({Role.LOT, Role.SHADE, Role.RANGE})


def _layout(
    lines: Sequence[Line], barcodes: Sequence[Barcode], worded: Sequence[Candidate]
) -> _Layout:
    taken = [span for candidate in worded for span in candidate.spans]
    addresses = find_addresses(lines)
    told = [*taken, *about_other_things(lines)]
    known = [*taken, *find_dates(lines)]
    captions = [
        caption
        for caption in with_column_captions(lines, find_captions(lines))
        if not (_within(caption, told) or ends_request(lines, caption))
        # "8431 KL Kraailand" is no colour
        and (caption.role not in _IDENTITY or not _within(caption, addresses))
    ]
    caption_spans = [Span(one.line, one.start, one.end) for one in captions]
    clutter = find_clutter(lines, barcodes)
    care = lines_of_care(lines)
    pieces = [
        piece
        for piece in find_pieces(lines, [*known, *caption_spans])
        if not _lies_in(piece.span, clutter) and not _is_run_on(piece, lines, worded, care)
    ]
    web = web_names(lines)

    def fit(caption: Caption, piece: Piece) -> float:
        spells_web = web_letters(Folded(piece.text).text) in web
        if has_own_label(piece.text) and piece.span.line != caption.line:
            return 0.0
        return 0.0 if spells_web and caption.role is not Role.RANGE else _fit(caption, piece)

    links = link(lines, captions, pieces, known, fit)
    links += parted_halves(links, pieces, lines)
    explained = [*known, *caption_spans, *(one.piece.span for one in links), *clutter]
    left = find_pieces(lines, explained)
    free = [
        piece
        for piece in left
        if (piece.span.line not in care or is_only_trade(piece.text))
        and not _announces(piece, lines[piece.span.line])
        and not _is_prose(piece, lines, worded, clutter, care)
        and (
            not is_service_text(piece.text)
            or leads_to_name(piece.text)
            or house_made_for(lines[piece.span.line], piece) is not None
        )
        and not is_place(piece.text)
        and not is_town_of_maker(lines[piece.span.line], piece)
        and not _is_of_share(piece, lines[piece.span.line])
        and not is_weight_word(piece.text)
        and not advises_on_lots(lines[piece.span.line].text)
    ]
    return _Layout(captions, links, free, left, explained)


def _surroundings(
    lines: Sequence[Line], layout: _Layout, worded: Sequence[Candidate]
) -> Surroundings:
    def spans(*names: str) -> set[Span]:
        return {span for one in worded if one.name in names for span in one.spans}

    def frames(*names: str) -> list[Frame]:
        return [frame_of(lines[one.line], one.start, one.end) for one in spans(*names)]

    addresses = find_addresses(lines)
    return Surroundings(
        weights=frames("weight_printed"),
        weight_spans=sorted(spans("weight_printed"), key=lambda one: (one.line, one.start)),
        facts=frames("fibre", "length_m", "mass_g"),
        codes=[piece.frame for piece in layout.free if leading_code(piece.text) is not None],
        addresses=[frame_of(lines[one.line], one.start, one.end) for one in addresses],
        addressed={one.line for one in addresses},
        web_names=web_names(lines),
        lines=lines,
        shades=[
            one.piece.frame
            for one in layout.links
            if one.caption.role is Role.SHADE and code_and_name(one.piece.text)[1] is not None
        ],
        lots=[one.piece.frame for one in layout.links if one.caption.role is Role.LOT],
        shade_codes=[
            one.piece.frame
            for one in layout.links
            if one.caption.role is Role.SHADE and code_and_name(one.piece.text)[1] is None
        ],
    )


def _identity(
    lines: Sequence[Line], barcodes: Sequence[Barcode], worded: Sequence[Candidate]
) -> _Identity:
    """The fields that only captions and place give away; ``worded`` are the candidates of
    the others."""
    layout = _layout(lines, barcodes, worded)
    links = layout.links
    around = _surroundings(lines, layout, worded)
    names = [piece for piece in layout.free if not _is_unnamed_shade(piece, layout, lines)]
    headed = find_maker(links, names, around, layout.left)
    named = [_first(headed, "maker"), _first(headed, "range")]
    rest = _without(layout.free, [span for one in named if one for span in one.spans])
    # A name that a ribbon repeats is the maker's everywhere.
    repeated = {str(one.value).casefold() for one in named if one}
    about = {span.line for one in worded if one.name in _RUN_ON for span in one.spans}
    rest = [
        piece
        for piece in rest
        if piece.text.casefold() not in repeated
        and not is_town_below(lines, piece.span)
        and (piece.span.line not in about or _opens_sentence(piece, lines[piece.span.line]))
    ]
    shades = find_shade(
        links,
        rest,
        captioned=any(caption.role is Role.SHADE for caption in layout.captions),
        lines=lines,
        range_=named[1],
    )
    shades = ask_beside_headings(shades, [one for one in named if one], layout.free)
    coded = [_first(shades, "shade_code")]
    scraps = _without(
        layout.left, [span for one in (*named, *shades[:1], *coded) if one for span in one.spans]
    )
    lots = find_lot(
        lines,
        links,
        _without(rest, [span for one in coded if one for span in one.spans]),
        scraps,
        layout.left,
        captioned=any(caption.role is Role.LOT for caption in layout.captions),
        labelled=[
            *(piece.text for piece in layout.left if has_own_label(piece.text)),
            *(piece.text for piece in scraps if may_have_label(piece.text)),
        ],
    )
    shown = any(_asks_shade(one.caption) for one in links)
    idle = [
        (caption, lines[caption.line].text[caption.start : caption.end])
        for caption in layout.captions
        if all(one.caption is not caption for one in links)
        and not is_answered(caption, links, lines)
        and not (shown and _asks_shade(caption))  # the same in another language
    ]
    return _Identity([*headed, *shades, *lots], idle, layout.explained)


def _is_unnamed_shade(piece: Piece, layout: _Layout, lines: Sequence[Line]) -> bool:
    """Whether ``piece`` is a colour and no heading, not in the largest print, on a tag of which no
    caption announces the shade's name, and the last line of no other name: it is no range's."""
    named = any(
        one.caption.role is Role.SHADE and code_and_name(one.piece.text)[1] is not None
        for one in layout.links
    )
    largest = max(line.height_px for line in lines)
    if named or not is_plain_colour(piece.text) or piece.height_px >= _HEADING * largest:
        return False
    others = (other for other in layout.free if other is not piece and whole_name(other.text))
    return not any(may_go_on(other, piece) for other in others)


def _asks_shade(caption: Caption) -> bool:
    """Whether a caption asks for the shade and says not whether for its name or its code."""
    return caption.role is Role.SHADE and not (caption.asks_number or caption.asks_name)


_PROSE = frozenset({"fibre", "care", "origin", "needle_mm", "tension"})
"""Fields that are set in running words: what else their lines hold names nothing."""

_RUN_ON = frozenset({"fibre", "care", "origin"})

_MARKS = tuple("·•|/–—-*:")
"""Marks behind a name that heads a line about something else."""

_SENTENCE_OF_SHARES = re.compile(r"\.\s+\d{1,3}(?:[.,]\d)?\s?%")
_SHARE_NEXT = re.compile(r":\s*\d{1,3}(?:[.,]\d)?\s?%")

_SHORT_WORD = 2
"""Words of so few letters ("a", "in", "de") tell nothing about their line."""

_MEASURES = frozenset({"length_m", "mass_g"})


def _is_run_on(
    piece: Piece, lines: Sequence[Line], worded: Sequence[Candidate], care: Collection[int]
) -> bool:
    """Whether ``piece`` is words in a line about fibre, care or origin, which no caption in
    another line announces."""
    if any(letter.isdigit() for letter in piece.text):
        return False
    about = {span.line for one in worded if one.name in _RUN_ON for span in one.spans}
    return piece.span.line in care or (
        piece.span.line in about and not _heads_line(piece, lines[piece.span.line])
    )


def _announces(piece: Piece, line: Line) -> bool:
    """Whether a colon or a sign for "is" and more stand right behind words: they are a caption,
    known or not, but for a name before what the yarn is made of: "Hooiberg: 87 % merinowol"."""
    behind = line.text[piece.span.end :].lstrip()
    is_wordy = not any(letter.isdigit() for letter in piece.text)
    if _SHARE_NEXT.match(behind) and _heads_line(piece, line):
        return False
    return is_wordy and behind.startswith((":", "=")) and any(sign.isalnum() for sign in behind)


def _is_of_share(piece: Piece, line: Line) -> bool:
    """Whether ``piece`` stands behind a share and says of what, known or not: "100 % Texelaar"."""
    return line.text[: piece.span.start].rstrip().endswith("%")


def _heads_line(piece: Piece, line: Line) -> bool:
    """Whether a name opens a line that goes on behind a mark: "Demi-Saison · 70 % laine"."""
    behind = line.text[piece.span.end :].lstrip()
    words = [match[0] for match in WORD.finditer(Folded(piece.text).text)]
    return (
        opens_line(line, piece)
        and (behind[:1] in _MARKS or _opens_sentence(piece, line))
        and piece.text[:1].isupper()
        and whole_name(piece.text) is not None
        and not any(_is_common(word) for word in words if len(word) > _SHORT_WORD)
    )


def _opens_sentence(piece: Piece, line: Line) -> bool:
    """Whether a name is a sentence of its own before the shares of the fibres: "Zeitungsrosa. 90 %
    Schurwolle"."""
    behind = line.text[piece.span.end :]
    return opens_line(line, piece) and _SENTENCE_OF_SHARES.match(behind) is not None


def _is_prose(
    piece: Piece,
    lines: Sequence[Line],
    worded: Sequence[Candidate],
    clutter: Sequence[Span],
    care: Collection[int],
) -> bool:
    """Whether ``piece`` is part of the running words about fibre, care and amounts or of an
    address: by its line, or because all its words are such words (the same in another
    language) and stand beside more of them: a range may be called Merino Fine."""
    names = {one.name for one in worded for span in one.spans if span.line == piece.span.line}
    line = lines[piece.span.line]
    is_name = has_firm_word(piece.text) and is_only_trade(piece.text)
    is_name = is_name or house_made_for(line, piece) is not None or leads_to_name(line.text)
    if is_name or heads_address(line, piece.span) or behind_copyright(line, piece.span):
        return False
    if names & _PROSE:
        return not _heads_line(piece, lines[piece.span.line])
    if names & _MEASURES and code_and_name(piece.text)[0] is None:
        return True
    prose = [span.line for one in worded if one.name in _PROSE for span in one.spans]
    small = bool(prose) and piece.height_px <= 1.2 * median(lines[at].height_px for at in prose)
    words = [match[0] for match in WORD.finditer(Folded(piece.text).text) if match[0].isalpha()]
    in_words = bool(words) and not any(letter.isdigit() for letter in piece.text)
    beside_clutter = any(span.line == piece.span.line for span in clutter)
    near = any(abs(at - piece.span.line) <= 1 for at in (*prose, *care))
    named = piece.text[0].isupper() and not has_trade_word(piece.text)  # as "British wool" has
    named = named and not all(word in FILLERS for word in words)
    runs_on = not (all(code_and_name(line.text)) or (named and not near))
    common = runs_on and all(_is_common(word) for word in words)
    return small and in_words and (beside_clutter or common)


def _is_common(word: str) -> bool:
    return len(word) <= _SHORT_WORD or word in FIBRE_WORDS or word in CARE_WORDS or word in FILLERS


def _fit(caption: Caption, piece: Piece) -> float:
    """How well ``piece`` would do as the value of ``caption``, 0 to 1."""
    if caption.role is Role.LOT:
        return lot_fit(piece.text)
    if caption.role is Role.SHADE:
        return shade_fit(piece.text, caption)
    if caption.role is Role.RANGE:
        return 1.0 if whole_name(piece.text) else 0.0
    if caption.role is Role.TOPIC:  # its words go on in its line; elsewhere it claims nothing
        return float(piece.span.line == caption.line)
    return 0.9 if leading_code(piece.text) else 0.0


def _within(caption: Caption, taken: Iterable[Span]) -> bool:
    """Whether a caption lies in print that a field accounts for ("weight" in a phrase)."""
    return any(
        span.line == caption.line and span.start <= caption.start < span.end for span in taken
    )


def _lies_in(span: Span, spans: Iterable[Span]) -> bool:
    return any(
        one.line == span.line and one.start <= span.start and span.end <= one.end for one in spans
    )


def _first(candidates: Sequence[Candidate], name: str) -> Candidate | None:
    return next((one for one in candidates if one.name == name), None)


def _without(pieces: Sequence[Piece], spans: Sequence[Span]) -> list[Piece]:
    return [piece for piece in pieces if not any(meet(piece.span, span) for span in spans)]


def _or_nothing(field: Field) -> Field:
    """A field that no ball is told by, left empty where it is not sure: nobody is to be asked
    about a needle size that was read unclearly."""
    if field.state is State.SURE or field.value is None:
        return field
    others = (value_text(field.name, field.value), *field.others)
    return Field(field.name, line=field.line, spans=field.spans, others=others)


def _barcode(barcodes: Sequence[Barcode]) -> Field:
    """The retail barcode; the QR code's text where the tag has no other."""
    retail = [one.text for one in barcodes if one.symbology != "QR"]
    texts = list(dict.fromkeys(retail or [one.text for one in barcodes]))
    if not texts:
        return Field("barcode")
    reason = "" if len(texts) == 1 else f"the tag carries {len(texts)} different barcodes"
    return Field(
        "barcode",
        texts[0],
        _BARCODE_CONFIDENCE / len(texts),
        State.DOUBTFUL if reason else State.SURE,
        others=tuple(texts[1:]),
        reason=reason,
    )


def _with_length_note(fields: dict[str, Field]) -> dict[str, Field]:
    """Says at the weight class where length per mass points to another one."""
    weight, length_m, mass_g = (
        fields[name].value for name in ("weight_class", "length_m", "mass_g")
    )
    if isinstance(weight, str) and isinstance(length_m, float) and isinstance(mass_g, float):
        note = length_note(weight, length_m, mass_g)
        if note:
            fields["weight_class"] = replace(fields["weight_class"], note=note)
    return fields
