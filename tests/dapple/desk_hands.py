"""What the hand does on the desk's page beside the drawings: sliders, camera, meter, regions, versions."""
import json
import math
import pathlib
import signal
import subprocess

import desk_things
from desk_page import Desk, Server, expect

# The picture as the program shows it, decoded by the browser.
PICTURE_PIXELS = """
const picture = document.getElementById('picture');
const canvas = document.createElement('canvas');
[canvas.width, canvas.height] = [picture.naturalWidth, picture.naturalHeight];
const context = canvas.getContext('2d');
context.drawImage(picture, 0, 0);
return [...context.getImageData(0, 0, canvas.width, canvas.height).data]"""


def slide_in_the_page(desk):
    """A slider mixes what the program mixes, before the program hears of it."""
    desk.browser.execute_script("desk.select('fixture', 'key')")
    desk.rest(3)
    desk.until("Number(document.body.dataset.light) === state.set.version && mixer.film().passes === 3",
               "the lights of this frame")
    # Only the page, then only the program, as a drag that goes on: it does not render then.
    change = "[{ address: 'fixture.key.dimmer', value: '0.5' }]"
    desk.browser.execute_script(f"mixer.slide({change}, true)")
    desk.until("mixer.timings.length > 0 && !document.getElementById('mixed').hidden", "the page shows the mix")
    mixed = desk.ask("[...mixer.pixels()]")
    desk.browser.execute_script(f"act({{ do: 'change', gesture: 'x', moving: true, changes: {change} }})")
    desk.until("document.getElementById('picture').dataset.mixed === 'true'", "the program's own mix")
    picture = desk.browser.execute_script(PICTURE_PIXELS)
    # Halves are exact to 1/2048 of a value, and code values are rounded twice.
    expect("pixels that differ by more than one code value", 0,
           sum(abs(a - b) > 1 for a, b in zip(mixed, picture)) + abs(len(mixed) - len(picture)))
    desk.slide("dimmer, slider", [0.9, 0.7])
    desk.let_go("dimmer, slider")
    desk.until("desk.tableOf('fixture', 'key').keys.dimmer === 0.7", "the program has it")
    desk.until("document.getElementById('mixed').hidden", "the page gives way to the program's frame")
    desk.press("undo")
    desk.press("undo")
    desk.rest(3)


def meter(desk):
    desk.find("#hand-meter").click()
    desk.find("#stage").click()
    desk.until("document.getElementById('reading').textContent.includes(' lx, f/')", "the meter reads")
    line = desk.find("#reading").text
    expect("a page as high as its window", True, desk.ask("document.documentElement.scrollHeight <= innerHeight"))
    if "By fixture: key 100 %" not in line:
        print(f"the meter does not say which fixture it reads: {line}")
    before = desk.ask("state.set.tables.length")
    desk.find("#drop-meter").click()
    desk.until(f"state.set.tables.length === {before + 1}", "a meter is dropped")
    expect("it is chosen", "meter", desk.ask("state.selected.kind"))
    desk.settle()
    expect("it is right", True, desk.ask("document.getElementById('trouble').hidden"))
    desk.press("undo")
    desk.find("#hand-look").click()


def camera(desk):
    def distance():
        thing = desk.ask("state.drawing.things.find((thing) => thing.kind === 'camera')")
        return math.dist(thing["at"], thing["aim"]), thing

    before, start = distance()
    desk.find("#hand-round").click()
    desk.drag_in_frame((0.5, 0.5), (60, 0))
    after, moved = distance()
    expect("walking round keeps the distance, cm", round(100 * before), round(100 * after))
    if not moved["at"][0] < start["at"][0] - 0.05:
        print(f"dragging right walks left: {start['at']} became {moved['at']}")
    desk.press("undo")
    desk.settle()
    desk.find("#hand-pan").click()
    desk.drag_in_frame((0.5, 0.5), (60, 0))
    _, panned = distance()
    expect("panning stays on the spot", start["at"], panned["at"])
    if not panned["aim"][0] < start["aim"][0] - 0.05:
        print(f"dragging right pans left: {start['aim']} became {panned['aim']}")
    desk.press("undo")
    desk.find("#hand-look").click()
    desk.settle()


def region(desk, dapple, path):
    """A region drawn by hand is judged as `dapple judge` does."""
    from selenium.webdriver.common.keys import Keys
    desk.find("#hand-region").click()
    desk.drag_in_frame((0.25, 0.25), (120, 80))
    desk.until("state.set.tables.some((table) => table.kind === 'region')", "a region is drawn")
    rect = desk.ask("state.set.tables.find((table) => table.kind === 'region').keys.rect_px")
    expect("it begins where the hand did", [12, 8], rect[:2])
    desk.find("#hand-look").click()
    desk.rest(3)
    desk.until("document.querySelector('#said').textContent.includes('After 3 passes')", "it is judged")
    pathlib.Path("judged.toml").write_text(desk.ask("state.set.text"))
    said = desk.browser.execute_async_script(
        "const done = arguments[0]; fetch('judge').then((answer) => answer.json()).then((json) => done(json.judge))")
    subprocess.run([dapple, "render", "judged.toml", "-o", "judged", "--passes", "3"], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    told = json.loads(subprocess.run([dapple, "judge", "judged", "--json"], check=True, capture_output=True).stdout)
    for key in ("mean_luminance", "texture_stops", "patch_px", "deep_shadow_share", "why"):
        mine, theirs = said["regions"][0][key], told["regions"][0][key]
        # `dapple judge` reads layers that were rounded to 16 bits.
        is_close = mine == theirs or (isinstance(mine, float) and math.isclose(mine, theirs, rel_tol=2e-3))
        if not is_close:
            print(f"judged on the page, {key}: {mine}; by dapple judge: {theirs}")
    desk.press("undo")
    desk.find("#judge").click()
    desk.find("#hand-region").click()
    desk.find("#stage").send_keys(Keys.ENTER, Keys.ARROW_RIGHT * 10, Keys.ARROW_DOWN * 15, Keys.ENTER)
    desk.until("state.set.tables.some((table) => table.kind === 'region')", "a region drawn with keys")
    desk.press("undo")
    desk.find("#judge").click()
    desk.find("#hand-look").click()


def without_a_name(desk):
    desk.browser.execute_script("selectTable(state.set.tables.find((table) => table.address === 'column.#1'))")
    desk.type("diameter", 0.35)
    desk.until("state.set.tables.find((table) => table.kind === 'column').keys.diameter_m === 0.35",
               "a table without a name is changed")
    desk.press("undo")


def two_of_one_size(desk):
    """Wide or tall, what was kept and what is now are level and of one size, in the window."""
    kept, now = desk.ask("['kept', 'stage'].map((id) => element(id).getBoundingClientRect().toJSON())")
    expect("kept and now have one size and are level", [], [
        side for side in ("top", "width", "height") if abs(kept[side] - now[side]) > 0.5])
    expect("in the window", True, max(kept["bottom"], now["bottom"]) < desk.ask("innerHeight"))


def keep_and_compare(desk):
    button = "Math.round(element('keep').getBoundingClientRect().top)"
    before = desk.ask(button)
    desk.find("#keep").click()
    desk.until("document.getElementById('kept')", "a moment is kept")
    expect("the buttons stay where they are", before, desk.ask(button))
    desk.find("#stops").click()
    expect("with a map's legend too", before, desk.ask(button))
    desk.find("#stops").click()
    desk.find("#hand-pan").click()
    expect("and with the hand's hint", before, desk.ask(button))
    desk.find("#hand-look").click()
    desk.until("document.getElementById('versions').options.length === 2", "it is among the versions")
    text = desk.ask("state.set.text")
    desk.browser.execute_script("act({ do: 'change', changes: [{ address: 'camera.iso', value: '400' }] })")
    desk.until("desk.tableOf('camera', '').keys.iso === 400", "a change")
    desk.find("#beside").click()
    expect("side by side", True, desk.ask("document.getElementById('stages').classList.contains('beside')"))
    two_of_one_size(desk)
    desk.browser.execute_script("element('stages').style.setProperty('--aspect', 2 / 3)")
    two_of_one_size(desk)
    desk.browser.execute_script("element('stages').style.setProperty('--aspect', 3 / 2)")
    desk.find("#go-back").click()
    desk.until("!desk.tableOf('camera', '').keys.iso", "back to the kept moment")
    desk.press("undo")
    desk.browser.execute_script("const all = element('versions'); all.value = all.options[1].value;"
                                "all.dispatchEvent(new Event('change'))")
    desk.until("!desk.tableOf('camera', '').keys.iso", "the kept version is opened")
    expect("to the byte", text, desk.ask("state.set.text"))
    desk.find("#drop").click()
    desk.press("undo")
    desk.press("undo")
    expect("all of it can be undone", text, desk.ask("state.set.text"))


def try_hands(desk, server, dapple, path):
    slide_in_the_page(desk)
    meter(desk)
    camera(desk)
    region(desk, dapple, path)
    without_a_name(desk)
    keep_and_compare(desk)
    for place in ("x=0.5&y=0.5", "x=-9&y=1e99", "x=nan", "y=cat"):
        status, answer = server.ask("GET", server.path + "meter?" + place)
        expect("a meter at " + place, (200, True), (status, answer.startswith(b"{")))


def from_nothing(browser, dapple):
    """A desk without a set: the form, a name, and versions that survive a crash."""
    server = Server(dapple, None, "--passes", "1", "--width", "48")
    desk = Desk(browser, server)
    desk.until("document.querySelector('#new-form[open]')", "the questions")
    for name, value in {"title": "An attic", "width": "4", "depth": "2", "figure": "1.6"}.items():
        field = desk.find(f"#new-form [name={name}]")
        field.clear()
        field.send_keys(value)
    desk.find("#new-form [type=submit]").click()
    desk.until("!document.querySelector('#new-form .wrong').hidden", "a room that cannot be is told")
    desk.find("#new-form [name=depth]").clear()
    desk.find("#new-form [name=depth]").send_keys("6")
    desk.browser.execute_script("const form = document.querySelector('#new-form form');"
                                "form.pose.value = 'seated'; form.walls.value = '0.12'")
    desk.find("#new-form [type=submit]").click()
    desk.until("state.set.tables.find((table) => table.kind === 'room').keys.size_m[1] === 6", "the room")
    expect("undo does not lead back to a room that nobody has made", False, desk.ask("state.set.undo"))
    expect("the camera is focused on the face", "figure face", desk.key("camera", "", "focus_m"))
    expect("its walls are dark", 0.12, desk.key("room", "", "reflectance"))
    expect("the sitter sits on a stool", ["seated", 0.38], [
        desk.key("stand_in", "figure", "pose"), desk.key("column", "stool", "height_m")])
    expect("the first fixture is chosen, to be slid", "key", desk.ask("state.selected.name"))
    desk_things.all_that_is_in_no_kit(desk)
    desk_things.thing_under_a_cross(desk)
    desk_things.cloth_beside_the_picture(desk)
    desk.find("#save").click()
    desk.until("document.querySelector('#name-form[open]')", "saving asks for a name")
    desk.find("#name-form [type=submit]").click()
    desk.until("state.set.saved", "saved")
    desk.browser.execute_script("act({ do: 'change', changes: [{ address: 'camera.iso', value: '-1' }] })")
    desk.until("document.getElementById('trouble').textContent.startsWith('camera: ISO is -1')",
               "a mistake in the file of the new name is told")
    desk.press("undo")
    server.end(signal.SIGKILL)
    expect("the file has the title's name", True, pathlib.Path("an-attic.toml").exists())
    versions = [entry.read_text() for entry in pathlib.Path("an-attic.toml.versions").iterdir()]
    expect("the saved version is kept", [pathlib.Path("an-attic.toml").read_text()], versions)
    expect("no side file is left", False, pathlib.Path("untitled.toml.unsaved").exists())


def unsaved_without_a_file(browser, dapple):
    """Undo after taking it up does not lead to the room that the desk begins with."""
    folder = pathlib.Path("unsaved")
    folder.mkdir()
    text = pathlib.Path("an-attic.toml").read_text().replace("iso = 800", "iso = 640")
    (folder / "untitled.toml.unsaved").write_text(text)
    server = Server(dapple, None, "--passes", "1", "--width", "48", folder=folder)
    try:
        desk = Desk(browser, server)
        desk.until("document.getElementById('left-over')", "what was not saved is offered")
        desk.find("#left-over button").click()
        desk.until("state.set.text.includes('iso = 640')", "it is taken up")
        expect("there is nothing to undo", False, desk.ask("state.set.undo"))
    finally:
        server.end(signal.SIGKILL)


def many_on_a_slow_tablet(browser, dapple):
    """25 fixtures on a tablet whose processor is four times slower."""
    with open("many.toml", "w") as out:
        out.write("[room]\nsize_m = [8.0, 8.0, 3.0]\n[camera]\nposition = [0.0, 1.2, 3.5]\naim = [0.0, 1.0, -2.0]\n"
                  "frame_px = [48, 32]\n")
        for i in range(25):
            out.write(f'[[fixture]]\nname = "lamp {i + 1}"\nposition = [{i % 5 - 2.0}, 2.2, {i // 5 - 2.0}]\n'
                      f'aim = [{i % 5 - 2.0}, 0.0, {i // 5 - 2.5}]\nbeam_angle_deg = 30.0\noutput_lm = 200\n')
    server = Server(dapple, "many.toml", "--passes", "1")
    browser.set_window_size(820, 1180 + 87)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 4})
    desk = Desk(browser, server)
    desk.find("#client").click()
    desk.until("document.body.dataset.light", "the lights")
    desk.slide("lamp 13, dimmer", [0.8, 0.4])
    desk.until("!document.getElementById('mixed').hidden", "the slider shows")
    desk.let_go("lamp 13, dimmer")
    desk.until("desk.tableOf('fixture', 'lamp 13').keys.dimmer === 0.4", "the program has it")
    desk.find("#client").click()
    expect("nothing is wider than the tablet", True,
           desk.ask("document.documentElement.scrollWidth <= innerWidth"))
    expect("controls smaller than a finger", [], desk.ask(
        "[...document.querySelectorAll('button, select, input:not([type=range]):not([type=checkbox])')]"
        ".filter((e) => e.offsetParent && e.offsetHeight < 44).map((e) => e.id || e.outerHTML)"))
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})
    desk.press("undo")
    server.end()
