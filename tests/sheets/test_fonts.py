"""Which signs can be printed. Outside referee: the typesetter itself, which refuses PDF/UA with a missing sign."""

from __future__ import annotations

import random

import pytest
import typst

from dayleaf.sheets.fonts import (
    ADULT_FACES,
    CHILD_FACE,
    UnprintableText,
    check_printable,
    font_folders,
    signs_of,
    unprintable,
)

FACES = (CHILD_FACE, *ADULT_FACES)


def _sets(face: str, text: str) -> bool:
    """Whether the typesetter prints `text` in `face` without a missing sign."""
    page = f'#set document(title: "t")\n#set text(font: "{face}", fallback: false)\n#sys.inputs.text'
    compiler = typst.Compiler(
        input=page.encode(),
        font_paths=typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=font_folders()),
        sys_inputs={"text": text},
    )
    try:
        compiler.compile(format="pdf", pdf_standards=["ua-1"])
    except typst.TypstError as refused:
        if "could not be displayed" not in str(refused):
            raise
        return False
    return True


@pytest.mark.parametrize("face", FACES)
def test_a_sign_is_printable_exactly_if_the_typesetter_has_it(face: str) -> None:
    chosen = random.Random(84)
    have = [chr(code) for code in chosen.sample(sorted(signs_of(face)), 200) if chr(code).isalnum()]
    lack = [chr(code) for code in range(0x100, 0x3000) if unprintable(chr(code), faces=(face,))]

    assert _sets(face, " ".join(have))
    for sign in chosen.sample(lack, 12):
        assert not _sets(face, f"a{sign}")


@pytest.mark.parametrize("face", FACES)
def test_digits_signs_and_the_letters_of_our_languages_can_be_printed(face: str) -> None:
    text = "0123456789 + − × ÷ = < > ° ¢ $ ½ “quoted” ’ – — … aábcdeéfghiíjklmnñoópqrstuúüvwxyz ¿Cuántos? ¡Bien!"

    assert unprintable(text, faces=(face,)) == ()
    assert _sets(face, text)


def test_names_from_many_places_can_be_printed() -> None:
    for name in ("Zoë", "José", "Łukasz", "Søren", "Anaïs", "Mary-Jane O’Neil", "Ngozi Ọ́", "Đỗ Thị Hà"):
        missing = unprintable(name)
        assert missing == () or not all(_sets(face, name) for face in FACES), name


def test_missing_signs_are_named_once_each_in_the_order_of_the_text() -> None:
    assert unprintable("Wren 漢字 😀 漢") == ("漢", "字", "😀")


def test_signs_that_turn_the_direction_of_writing_are_never_printed() -> None:
    """Unicode's bidirectional controls (UAX 9) would show another text than the one stored."""
    assert unprintable("Wren\u202eabc\u200f") == ("\u202e", "\u200f")
    assert unprintable("line\nbreak") == ("\n",)


def test_the_error_names_text_and_signs_in_one_sentence() -> None:
    with pytest.raises(UnprintableText) as caught:
        check_printable(["fine", "Wren 😀"], faces=(CHILD_FACE,))

    assert "Wren 😀" in str(caught.value)
    assert "U+1F600" in str(caught.value)
    assert caught.value.signs == ("😀",)


def test_the_signs_for_a_place_to_write_in_are_drawn_where_a_face_lacks_them() -> None:
    """Lexend has neither of them (see the character map); our templates draw both."""
    assert not {ord("□"), ord("○")} & signs_of(CHILD_FACE)
    assert unprintable("62 − 38 = □, 45 ○ 54") == ()
