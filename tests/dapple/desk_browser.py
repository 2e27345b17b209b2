#!/usr/bin/env python3
"""Works at dapple desk as a user does, in headless Chromium. Prints what is wrong, else nothing.

    desk_browser.py DAPPLE SET.toml            the test; the set has a fixture and a jar
    desk_browser.py shot DAPPLE SET.toml OUT.png WIDTH HEIGHT [NAME]
                                               a screenshot with the thing NAME selected
    desk_browser.py sliders DAPPLE SET.toml FIXTURE [WIDTH]
                                               measures the page's dimmer, from its event to the pixels

Exit code 77: browser, driver or selenium are missing.
"""
import json
import pathlib
import signal
import subprocess
import sys

import desk_hands
import desk_moving
import desk_saving
import desk_tables
import desk_things
import desk_typing
from desk_page import Desk, Server, expect, open_browser


def try_the_door(server):
    page = server.path
    expect("the page", 200, server.ask("GET", page)[0])
    expect("another token", 403, server.ask("GET", "/" + "0" * 32 + "/")[0])
    expect("no token", 403, server.ask("GET", "/")[0])
    expect("another host", 403, server.ask("GET", page, Host="example.org")[0])
    expect("a page from elsewhere", 403, server.ask("POST", page + "act", "{}", Origin="http://example.org",
                                                     Content_Type="application/json")[0])
    expect("a form", 415, server.ask("POST", page + "act", "{}", Content_Type="text/plain")[0])
    expect("nonsense", 409, server.ask("POST", page + "act", "][", Content_Type="application/json")[0])
    expect("too much", 413, server.ask("POST", page + "act", "x" * (5 << 20), Content_Type="application/json")[0])
    expect("a file beside the set", 404, server.ask("GET", page + "../set.toml")[0])


def move_and_undo(desk):
    place = desk.key("glass", "jar", "position")
    desk.drag("#above .thing[data-kind=glass] .grip", 24, -12)
    moved = desk.key("glass", "jar", "position")
    if not (moved[0] > place[0] and moved[2] < place[2] and moved[1] == place[1]):
        print(f"dragging right and up on the plan: {place} became {moved}")
    desk.press("undo")
    expect("one drag is one step", place, desk.key("glass", "jar", "position"))
    desk.press("redo")
    expect("redo", moved, desk.key("glass", "jar", "position"))
    desk.press("undo")
    desk.settle()
    desk.drag("#side .thing[data-kind=glass] .grip", 0, -16)
    raised = desk.key("glass", "jar", "position")
    if not (raised[1] > place[1] and raised[0] == place[0] and raised[2] == place[2]):
        print(f"dragging up on the side view: {place} became {raised}")
    desk.press("undo")


def type_and_mistake(desk):
    desk.browser.execute_script("desk.select('fixture', 'key')")
    desk.type("beam angle", 25)
    desk.until("desk.tableOf('fixture', 'key').keys.beam_angle_deg === 25", "a number is typed")
    desk.settle()
    desk.type("beam angle", -5)
    desk.until("!document.getElementById('trouble').hidden", "a mistake is told")
    line = desk.find("#trouble").text
    expect("the line about a mistake names the thing and its field, no file and no key", True,
           line.startswith("key, fixture: beam angle is -5"))
    expect("the field is marked and in sight", True, desk.ask(
        "(([row, pane]) => row.top >= pane.top && row.bottom <= pane.bottom)([document.querySelector('#keys .key.wrong'),"
        " document.querySelector('section.keys')].map((part) => part.getBoundingClientRect()))"))
    desk.press("undo")
    desk.until("document.getElementById('trouble').hidden", "the line goes with the mistake")
    desk.press("undo")


def dim(desk):
    """In the program, where the page has no light to mix."""
    desk.browser.execute_script("desk.select('fixture', 'key'); mixer.kept = mixer.slide; mixer.slide = () => false")
    desk.rest(3)
    desk.browser.execute_script("changer.change([{ address: 'fixture.key.dimmer', value: '0.5' }], 'g', true)")
    desk.until("document.getElementById('picture').dataset.mixed === 'true'", "a dimmer mixes the frame anew")
    expect("of the size that it had", 48, desk.ask("document.getElementById('picture').naturalWidth"))
    desk.press("undo")
    desk.settle()
    desk.browser.execute_script("mixer.slide = mixer.kept")


def keyboard(desk):
    from selenium.webdriver.common.keys import Keys
    desk.browser.execute_script("desk.select('glass', 'jar'); document.getElementById('above').focus()")
    before = desk.version()
    place = desk.key("glass", "jar", "position")
    desk.find("#above").send_keys(Keys.ARROW_RIGHT)
    desk.until(f"state.set.version > {before}", "an arrow key moves the jar")
    moved = desk.key("glass", "jar", "position")
    expect("an arrow key moves by 5 cm", round(place[0] + 0.05, 3), moved[0])
    before = desk.version()
    desk.find("#above").send_keys(Keys.CONTROL, "z")
    desk.until(f"state.set.version > {before}", "Ctrl-Z")
    expect("Ctrl-Z takes it back", place, desk.key("glass", "jar", "position"))
    unnamed = desk.ask("[...document.querySelectorAll('button, input, select')].filter((e) => e.offsetParent &&"
                       " !e.textContent && !e.labels?.length && !e.getAttribute('aria-label')).map((e) => e.outerHTML)")
    expect("every control has a name", [], unnamed)


def add_and_remove(desk):
    before = desk.ask("state.set.text")
    count = desk.ask("state.set.tables.length")
    desk.browser.execute_script("element('add-fixture').value = 'fixture/led-spot-40';"
                                "element('add-fixture').dispatchEvent(new Event('change'))")
    desk.until(f"state.set.tables.length === {count + 1}", "a fixture from the kit")
    desk.settle()
    expect("the new thing is selected", "led spot 40", desk.ask("state.selected.name"))
    expect("it is right", True, desk.ask("document.getElementById('trouble').hidden"))
    desk.find("#copy").click()
    desk.until(f"state.set.tables.length === {count + 2}", "another one like it")
    expect("with a name of its own", "led spot 40 2", desk.ask("state.selected.name"))
    desk.find("#remove").click()
    desk.until(f"state.set.tables.length === {count + 1}", "one is taken out")
    for _ in range(3):
        desk.press("undo")
    expect("the text is as before", before, desk.ask("state.set.text"))


def outside(desk, path):
    """Other lines are merged; the same lines are asked about."""
    text = pathlib.Path(path).read_text()
    desk.browser.execute_script("changer.change([{ address: 'camera.iso', value: '400' }])")
    desk.until("desk.tableOf('camera', '').keys.iso === 400", "a change of mine")
    pathlib.Path(path).write_text(text.replace("output_lm = 800", "output_lm = 700"))
    desk.until("document.getElementById('merged')", "a change by another program is taken in, and told")
    desk.find("#merged button:last-child").click()
    desk.until("!document.getElementById('merged')", "it is seen")
    expect("for good", None, desk.ask("state.set.merged"))
    expect("theirs is here", 700, desk.key("fixture", "key", "output_lm"))
    expect("mine is still here", 400, desk.key("camera", "", "iso"))
    desk.browser.execute_script("changer.change([{ address: 'fixture.key.output_lm', value: '600' }])")
    desk.until("desk.tableOf('fixture', 'key').keys.output_lm === 600", "a change of mine in the same line")
    pathlib.Path(path).write_text(text)
    desk.until("document.getElementById('outside')", "changes of one line are asked about")
    expect("and mine is not lost", 600, desk.key("fixture", "key", "output_lm"))
    desk.find("#outside button").click()
    desk.until("state.set.saved", "the file is taken")
    expect("the file is as it was", text, desk.ask("state.set.text"))


def same_as_render(desk, server, dapple, path, passes):
    desk.until(f"Number(document.getElementById('picture').dataset.passes) === {passes}", "all passes")
    picture = server.ask("GET", server.path + "picture.png")[1]
    subprocess.run([dapple, "render", path, "-o", "out", "--passes", str(passes)], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    same = picture == pathlib.Path("out", pathlib.Path(path).stem + ".png").read_bytes()
    expect("the frame at rest is that of dapple render", True, same)


def same_after_changes(desk, server, dapple, path, passes):
    """Whatever is kept from one change to the next, the frame at rest is that of dapple render."""
    lamp = '\n[[fixture]]\nname = "second"\nposition = [-1.0, 2.0, 0.5]\naim = [0.0, 0.5, -1.0]\n' \
           'beam_angle_deg = 30.0\nfield_angle_deg = 50.0\noutput_lm = 500\nsource_mm = 30.0\n'
    moves = [[["glass.jar.position", "[0.3, 0.0, -0.5]"]], [["fixture.key.position", "[0.8, 2.1, 0.9]"]],
             [["camera.position", "[0.1, 1.3, 1.4]"]], [["glass.jar.height_mm", "200"]], lamp,
             [["fixture.key.beam_angle_deg", "24.0"]], [["fixture.second", "false"]]]
    beside = pathlib.Path(path).with_name("beside.toml")
    for move in moves:
        request = {"do": "text", "text": desk.ask("state.set.text") + move} if isinstance(move, str) else {
            "do": "change", "changes": [{"address": address, "value": value} for address, value in move]}
        before = json.dumps(desk.ask("state.set.text"))
        # As at the end of a drag: a step that moves, then the same at rest. The lamp's text is no drag.
        if request["do"] == "change" and "position" in str(move):
            desk.browser.execute_async_script("act(arguments[0]).then(arguments[1])", {**request, "moving": True})
        trouble = desk.browser.execute_async_script("act(arguments[0]).then(arguments[1])", request)
        expect(f"{move}", "", trouble)
        desk.until(f"state.set.text !== {before}", "the page knows of the change")
        desk.settle()
        desk.until(f"Number(document.getElementById('picture').dataset.passes) === {passes}", "all passes")
        picture = server.ask("GET", server.path + "picture.png")[1]
        beside.write_text(desk.ask("state.set.text"))
        subprocess.run([dapple, "render", str(beside), "-o", "out", "--passes", str(passes)], check=True,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        expect(f"the frame at rest after {move}", True, picture == pathlib.Path("out/beside.png").read_bytes())
        for left in pathlib.Path("out").glob("beside*"):
            left.unlink()
    for _ in moves:
        desk.press("undo")


def two_tabs(desk, server):
    first = desk.browser.current_window_handle
    desk.browser.switch_to.new_window("tab")
    other = Desk(desk.browser, server)
    other.browser.execute_script("act({ do: 'change', changes: [{ address: 'camera.iso', value: '400' }] })")
    other.until("desk.tableOf('camera', '').keys.iso === 400", "this tab's change")
    other.browser.close()
    desk.browser.switch_to.window(first)
    desk.until("desk.tableOf('camera', '').keys.iso === 400", "the other tab's change")
    desk.press("undo")


def crash_and_go_on(browser, server, dapple, path):
    """Leaves one saved change: the jar's position."""
    desk = Desk(browser, server)
    desk.drag("#above .thing[data-kind=glass] .grip", 24, -12)
    moved = desk.key("glass", "jar", "position")
    server.end(signal.SIGKILL)
    desk.until("document.getElementById('lost')", "the page says that the program is gone")
    again = Server(dapple, path, "--passes", "1")
    desk = Desk(browser, again)
    desk.until("document.getElementById('left-over')", "what was not saved is offered")
    desk.find("#left-over button").click()
    desk.until("!document.getElementById('left-over')", "it is taken up")
    expect("nothing is lost", moved, desk.key("glass", "jar", "position"))
    desk.press("save")
    desk.until("state.set.saved", "saved")
    log = [entry["message"] for entry in browser.get_log("browser")]
    expect("no errors in the page", [], [line for line in log if not any(word in line for word in ("/news", "/act", "WebGL", "ERR_CONNECTION"))])
    expect("Ctrl-C ends the desk", 0, again.end(signal.SIGINT))


def test(dapple, path):
    browser = open_browser((1366, 855))
    server = Server(dapple, path, "--passes", "3")
    try:
        try_the_door(server)
        desk = Desk(browser, server)
        same_as_render(desk, server, dapple, path, 3)
        same_after_changes(desk, server, dapple, path, 3)
        move_and_undo(desk)
        type_and_mistake(desk)
        dim(desk)
        keyboard(desk)
        add_and_remove(desk)
        desk_hands.try_hands(desk, server, dapple, path)
        desk_things.try_things(desk)
        desk_tables.try_tables(desk)
        desk_moving.try_moving(desk)
        desk_typing.try_typing(desk)
        outside(desk, path)
        two_tabs(desk, server)
        crash_and_go_on(browser, server, dapple, path)
        desk_hands.from_nothing(browser, dapple)
        desk_hands.unsaved_without_a_file(browser, dapple)
        desk_saving.try_saving(browser, dapple)
        desk_hands.many_on_a_slow_tablet(browser, dapple)
    except AssertionError as error:
        print(error)
        print(*[entry["message"] for entry in browser.get_log("browser")], sep="\n")
    finally:
        browser.quit()
        if server.process.poll() is None:
            server.end(signal.SIGKILL)


def shot(dapple, path, picture, width, height, name=None):
    browser = open_browser((int(width), int(height) + 87))
    server = Server(dapple, path, "--width", "480", "--passes", "2")
    try:
        desk = Desk(browser, server)
        if name:
            browser.execute_script("selectTable(state.set.tables.find((t) => t.name === arguments[0]))", name)
        desk.until("document.getElementById('picture').dataset.passes === '2'", "the frame at rest")
        browser.save_screenshot(picture)
    finally:
        browser.quit()
        server.end()


SLIDE = """
const [name, done] = arguments;
mixer.timings.length = 0;
function step(i) {
  mixer.slide([{ address: `fixture.${name}.dimmer`, value: String(0.3 + 0.01 * (i % 60)) }], true);
  if (i < 150) setTimeout(() => step(i + 1), 20);
  else setTimeout(() => done([mixer.timings, document.getElementById('mixed').width]), 500);
}
step(0);"""


def sliders(dapple, path, name, width="960"):
    browser = open_browser((1366, 855))
    server = Server(dapple, path, "--width", width, "--passes", "2")
    try:
        desk = Desk(browser, server)
        browser.execute_script("selectTable(state.set.tables.find((t) => t.name === arguments[0]))", name)
        desk.until("document.getElementById('picture').dataset.passes === '2'", "the frame at rest")
        desk.until("mixer.film()?.passes === 2", "its light")
        shown = desk.ask("[mixer.film().width, mixer.film().layers.length, mixer.kind()]")
        times, drawn = browser.execute_async_script(SLIDE, name)
        times = sorted(times[20:])  # the first ones find how finely there is time to draw
        print(f"{path}: {shown[0]} px drawn as {drawn}, {shown[1]} light groups, {shown[2]}: median "
              f"{times[len(times) // 2]:.1f} ms, 95 % under {times[len(times) * 95 // 100]:.1f} ms")
    finally:
        browser.quit()
        server.end()


if sys.argv[1] == "shot":
    shot(*sys.argv[2:])
elif sys.argv[1] == "sliders":
    sliders(*sys.argv[2:])
else:
    test(*sys.argv[1:])
