"""What is typed and chosen on the desk: numbers as people write them, and choices of several keys at once."""
import json

from desk_page import expect

CHOOSE = ("const e = document.querySelector(`#keys [aria-label='${arguments[0]}']`); e.value = arguments[1];"
          "e.dispatchEvent(new Event('change', { bubbles: true }))")


def choose(desk, label, value):
    before = desk.version()
    desk.browser.execute_script(CHOOSE, label, value)
    desk.until(f"state.set.version > {before}", f"{label} is chosen: {value}")


def typed(desk, label, text):
    """Types what is a number."""
    before = desk.version()
    desk.type(label, text)
    desk.until(f"state.set.version > {before}", f"{label} is typed: {text}")


def is_right(desk, claim):
    desk.settle()
    expect(claim, "", desk.find("#trouble").text)


def numbers_as_people_write_them(desk):
    desk.browser.execute_script("desk.select('fixture', 'key')")
    for text, dimmer in (("0,5", 0.5), ("60 %", 0.6), ("-1 stop", 0.5), ("−½ stop", 0.707107)):
        typed(desk, "dimmer", text)
        expect(text, dimmer, desk.key("fixture", "key", "dimmer"))
        desk.press("undo")
    desk.browser.execute_script("desk.select('glass', 'jar')")
    place = desk.key("glass", "jar", "position")
    typed(desk, "stands at x", "30 cm")
    expect("30 cm is 0.3 m", [0.3, *place[1:]], desk.key("glass", "jar", "position"))
    desk.press("undo")
    for text, unit, number in (("2 ft 8 in", "m", 0.813), ("5'11", "m", 1.803), ("1 1/4 in", "mm", 31.75), ("f/5.6", "f/", 5.6), ("f4", "f/", 4),
                               ("ISO 400", "ISO", 400), ("1/60 s", "s", 0.0166667), ("3200 K", "K", 3200), ("2 kW", "W", 2000), ("20 deg", "°", 20)):
        expect(f"{text} is understood as in the file", number, desk.ask(f"numberTyped({json.dumps(text)}, {json.dumps(unit)}).value"))
    for text, unit, example in (("warm", "K", "3200"), ("wide", "°", "20"), ("1 cm 2 m", "m", "50 cm"), ("half", "share", "-1 stop")):
        expect(f"{text} is answered with an example that fits", True,
               example in (desk.ask(f"numberTyped({json.dumps(text)}, {json.dumps(unit)}).wrong") or ""))
    before = desk.version()
    for text in ("1,200", "3 kg", "near"):
        desk.type("height", text)
        expect(f"{text} is refused", True, text in desk.find("#trouble").text)
    expect("and changes nothing", before, desk.version())
    desk.type("height", "260")
    expect("a number is right again", "", desk.find("#trouble").text)


def whole_numbers(desk):
    desk.browser.execute_script("desk.select('camera', '')")
    frame = desk.key("camera", "", "frame_px")
    typed(desk, "frame first", frame[0] + 2)
    is_right(desk, "the frame's size can be typed")
    choose(desk, "format", "portrait")
    is_right(desk, "portrait is right")
    expect("portrait turns the frame", [frame[1], frame[0] + 2], desk.key("camera", "", "frame_px"))
    expect("and the sensor", [24, 36], desk.key("camera", "", "sensor_mm"))
    desk.press("undo")
    desk.press("undo")
    expect("the side view looks across the camera's way", "From the left side", desk.find("#side-words").text)


def another_source(desk):
    desk.browser.execute_script("desk.select('fixture', 'key'); act({ do: 'change', changes:"
                                " [{ address: 'fixture.key.cct_k', value: '4300' }] })")
    desk.until("document.querySelector(\"#keys [aria-label='colour']\")", "its colour")
    choose(desk, "source", "tungsten")
    is_right(desk, "a tungsten lamp has a colour that it can have")
    expect("the usual one", 3200, desk.key("fixture", "key", "cct_k"))
    choose(desk, "source", "led")
    is_right(desk, "and back")
    choose(desk, "form", "panel")
    is_right(desk, "a panel has a size")
    for _ in range(4):
        desk.press("undo")


def made_of(desk):
    desk.browser.execute_script("const e = element('add-surface'); e.value = 'wall/floor';"
                                "e.dispatchEvent(new Event('change'))")
    desk.until("state.selected?.name === 'floor'", "the floor is chosen")
    choose(desk, "made of", "planks")
    is_right(desk, "a floor of planks")
    expect("of planks alone", {"name": "floor", "kit": "planks"}, desk.ask("state.selected.keys"))
    desk.press("undo")
    desk.press("undo")
    desk.browser.execute_script("selectTable(state.set.tables.find((table) => table.kind === 'column'))")
    choose(desk, "section", "square")
    is_right(desk, "a column with corners")
    expect("as wide as it was round", [0.3, 0.3], desk.ask("state.selected.keys.size_m"))
    desk.press("undo")


def mistakes_do_not_hold_up_the_rest(desk):
    desk.browser.execute_script("act({ do: 'change', changes: [{ address: 'camera.iso', value: '-1' }] })")
    desk.until("document.getElementById('trouble').textContent.includes('camera: ISO is -1')", "a mistake")
    desk.browser.execute_script("act({ do: 'change', changes: [{ address: 'glass.jar.position', value: '[0.2, 0.0, -0.2]' }] })")
    desk.until("state.drawing.things.find((thing) => thing.name === 'jar').at[0] === 0.2", "the drawing follows")
    desk.browser.execute_script("act({ do: 'change', changes: [{ address: 'glass.jar.height_mm', value: '-9' }] })")
    desk.until("document.getElementById('trouble').textContent.includes('height is -9')", "the newest mistake is told too")
    for _ in range(3):
        desk.press("undo")
    is_right(desk, "all right again")


def panes_face_the_lamp(desk):
    """Two of them in one beam do not stand in each other."""
    places = []
    for i in range(2):
        count = desk.ask("state.set.tables.length")
        desk.browser.execute_script("desk.select('fixture', 'key'); addThing('glass', 'pane-reeded')")
        desk.until(f"state.set.tables.length === {count + 1}", "a pane")
        is_right(desk, "it is right")
        keys = desk.ask("state.selected.keys")
        lamp = desk.key("fixture", "key", "position")
        turn = desk.ask(f"facingTurn({keys['position']}, {lamp})")
        expect("it faces the lamp", turn, keys.get("turn_deg", 0))
        places.append(keys["position"])
    apart = sum((a - b) ** 2 for a, b in zip(*places)) ** 0.5
    if apart < 0.3:
        print(f"two panes in one beam are {apart} m apart")
    desk.press("undo")
    desk.press("undo")


def try_typing(desk):
    numbers_as_people_write_them(desk)
    whole_numbers(desk)
    another_source(desk)
    made_of(desk)
    mistakes_do_not_hold_up_the_rest(desk)
    panes_face_the_lamp(desk)
