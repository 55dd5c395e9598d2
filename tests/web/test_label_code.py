"""The QR code of a label, against the standard's tables and a reader that is not ours."""

import re
from xml.etree import ElementTree

import pytest
import zxingcpp
from PIL import Image

from fieldapp.web.label_code import LabelError, address, leads_here_only, symbol

CODE = "7K3MD9QX2P"
LABEL = address("https://field-doors.example", CODE)


def rows_of(svg):
    """The dark modules that the SVG draws, read back from its path alone."""
    root = ElementTree.fromstring(svg)
    side = int(root.get("viewBox").split()[2])
    dark = [[False] * side for _ in range(side)]
    ink = root.findall("{http://www.w3.org/2000/svg}path")[1]
    for x, y, width in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\3z", ink.get("d")):
        for at in range(int(x), int(x) + int(width)):
            dark[int(y)][at] = True
    return dark


def read(dark, dots=4):
    """What a reader of its own (zxing-cpp) makes of modules drawn `dots` dots wide."""
    picture = Image.new("L", (len(dark),) * 2)
    picture.putdata([0 if module else 255 for row in dark for module in row])
    [found] = zxingcpp.read_barcodes(picture.resize((len(dark) * dots,) * 2, Image.Resampling.NEAREST))
    return found


def test_address_is_upper_case_with_its_port():
    assert address("http://shop.lan:8000", CODE) == "HTTP://SHOP.LAN:8000/U/7K3MD9QX2P"


@pytest.mark.parametrize(
    ("letters", "version"), [(20, 2), (21, 3), (35, 3), (36, 4), (50, 4), (51, 5), (64, 5), (65, 6)]
)
def test_versions_of_alphanumeric_text_at_h(letters, version):
    """ISO/IEC 18004, capacities at level H, alphanumeric: 20, 35, 50, 64 letters in versions 2 to 5 (from memory)."""
    made = symbol(("HTTPS://$%*+-. 0123456789" * 3)[:letters])
    assert (made.version, made.level) == (version, "H")


@pytest.mark.parametrize(
    ("text", "modules"),
    [
        ("HTTPS://FIELDS-DOORS.EXAMPLE/U/" + CODE[:8], 33),
        ("https://fields-doors.example/u/" + CODE[:8].lower(), 37),
        ("https://fields-doors.example/units/0199c0de-7a11-7000-8000-000000000001", 49),
        ("HTTPS://SHOP.LAN/U/" + CODE, 29),
    ],
)
def test_sizes_that_another_encoder_makes(text, modules):
    """Measured with segno, level H: 39 letters upper case 33 x 33, lower case 37, with a UUID 49, SHOP.LAN 29."""
    assert len(symbol(text).rows) - 8 == modules


@pytest.mark.parametrize(
    "origin",
    [
        "https://field-doors.example",
        "http://127.0.0.1:41873",
        "http://[::1]:8000",
        "https://a_b.example",
        "https://" + "a" * 60 + ".example",
    ],
)
def test_a_reader_gets_the_address_back(origin):
    made = symbol(address(origin, CODE))
    found = read(rows_of(made.svg))
    assert found.text == f"{origin.upper()}/U/{CODE}"
    assert found.format == zxingcpp.BarcodeFormat.QRCode
    assert found.ec_level == made.level


def test_svg_is_fifty_millimetres_with_four_white_modules_around():
    """ISO/IEC 18004: quiet zone of 4 modules; a finder pattern, 7 modules dark on its rim, in three corners."""
    made = symbol(LABEL)
    root = ElementTree.fromstring(made.svg)
    side = len(made.rows)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("50mm", "50mm", f"0 0 {side} {side}")
    dark = rows_of(made.svg)
    assert dark == [list(row) for row in made.rows]
    inner = range(4, side - 4)
    assert not any(dark[y][x] for y in range(side) for x in range(side) if x not in inner or y not in inner)
    finder = [True] * 7 + [False]
    assert dark[4][4:12] == finder
    assert dark[4][side - 5 : side - 13 : -1] == finder
    assert dark[side - 5][4:12] == finder
    assert "style=" not in made.svg


def test_h_while_modules_are_wide_then_q_then_a_sentence():
    short, long = symbol(LABEL), symbol(address("https://" + "a." * 126 + "b", CODE))
    assert (short.level, short.module_mm >= 0.7) == ("H", True)
    assert (long.level, 0.5 <= long.module_mm < 0.7) == ("Q", True)
    assert read(rows_of(long.svg)).text == long.text
    for letters in (700, 3000, 20000):
        with pytest.raises(LabelError, match=f"has {letters} letters"):
            symbol("A" * letters)


def test_a_code_is_read_with_a_ninth_of_it_worn_away():
    """Level H restores about 30 % of the codewords (ISO/IEC 18004); a patch in the middle touches no finder pattern."""
    dark = rows_of(symbol(LABEL).svg)
    middle = range(4 + 10, 4 + 21)
    for y in middle:
        for x in middle:
            dark[y][x] = False
    assert read(dark).text == LABEL


@pytest.mark.parametrize(
    ("origin", "here"),
    [
        ("http://127.0.0.1:8000", True),
        ("http://127.9.9.9", True),
        ("http://localhost:8000", True),
        ("http://[::1]:8000", True),
        ("http://demo.localhost", True),
        ("http://LOCALHOST.", True),
        ("http://0.0.0.0:8000", True),
        ("http://192.168.1.5:8000", False),
        ("https://localhost.example", False),
        ("https://field-doors.example", False),
        ("http://[fd00::1]", False),
    ],
)
def test_what_leads_to_this_machine_only(origin, here):
    """Loopback: RFC 1122 3.2.1.3 (127/8), RFC 4291 2.5.3 (::1), RFC 6761 6.3 (localhost)."""
    assert leads_here_only(origin) is here
