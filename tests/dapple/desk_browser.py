#!/usr/bin/env python3
"""Works at dapple desk as a user does, in headless Chromium. Prints what is wrong, else nothing.

    desk_browser.py DAPPLE SET.toml            the test; the set has a fixture and a jar
    desk_browser.py shot DAPPLE SET.toml OUT.png WIDTH HEIGHT [NAME]
                                               a screenshot with the thing NAME selected

Exit code 77: browser, driver or selenium are missing.
"""
import http.client
import json
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import time

SKIP = 77
PATIENCE_S = 120  # for machines that do other work too


class Server:
    def __init__(self, dapple, path, *options):
        self.process = subprocess.Popen(
            [dapple, "desk", path, "--no-browser", *options], stdout=subprocess.PIPE, text=True)
        self.url = re.search(r"http://\S+", self.process.stdout.readline()).group(0)
        self.host, self.path = re.match(r"http://([^/]+)(/.*)", self.url).groups()

    def ask(self, method, path, body=None, **headers):
        connection = http.client.HTTPConnection(self.host, timeout=PATIENCE_S)
        connection.request(method, path, body, {key.replace("_", "-"): value for key, value in headers.items()})
        answer = connection.getresponse()
        return answer.status, answer.read()

    def end(self, how=signal.SIGTERM):
        self.process.send_signal(how)
        return self.process.wait(30)


def open_browser(size):
    try:
        from selenium import webdriver
        from selenium.webdriver.chrome.service import Service
    except ImportError:
        print("skipped: python3-selenium is not installed; tools/prepare --tests installs it")
        sys.exit(SKIP)
    driver, browser = shutil.which("chromedriver"), shutil.which("chromium")
    if not driver or not browser:
        print("skipped: chromium and chromium-driver are not installed; tools/prepare --tests does it")
        sys.exit(SKIP)
    options = webdriver.ChromeOptions()
    options.binary_location = browser
    for argument in ["--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--hide-scrollbars",
                     "--force-device-scale-factor=1", f"--window-size={size[0]},{size[1]}"]:
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    return webdriver.Chrome(service=Service(driver), options=options)


class Desk:
    """The page, as its user meets it."""

    def __init__(self, browser, server):
        self.browser = browser
        browser.get(server.url)
        self.until("document.querySelectorAll('#above .thing').length > 1", "the room is drawn")
        self.until("document.getElementById('picture').dataset.version", "the frame is there")

    def ask(self, script):
        return self.browser.execute_script("return " + script)

    def until(self, script, what):
        end = time.time() + PATIENCE_S
        while time.time() < end:
            if self.ask(script):
                return
            time.sleep(0.05)
        raise AssertionError(f"never: {what}")

    def find(self, selector):
        return self.browser.find_element("css selector", selector)

    def version(self):
        return self.ask("state.set.version")

    def key(self, kind, name, key):
        return self.ask(f"desk.tableOf({json.dumps(kind)}, {json.dumps(name)}).keys[{json.dumps(key)}]")

    def press(self, button):
        before = self.version()
        self.find("#" + button).click()
        if button in ("undo", "redo"):
            self.until(f"state.set.version > {before}", button)

    def drag(self, selector, dx, dy):
        from selenium.webdriver.common.action_chains import ActionChains
        before = self.version()
        chain = ActionChains(self.browser).click_and_hold(self.find(selector))
        for _ in range(4):
            chain.move_by_offset(dx // 4, dy // 4)
        chain.release().perform()
        self.until(f"state.set.version > {before}", "the set is changed by dragging")
        self.settle()

    def settle(self):
        self.until("Number(document.getElementById('picture').dataset.version) === state.set.version",
                   "the frame of the newest set")
        self.until("state.drawing.version === state.set.version", "the drawing of the newest set")

    def type(self, label, value):
        field = self.find(f"#keys input[aria-label='{label}']")
        self.browser.execute_script(
            "arguments[0].focus(); arguments[0].value = arguments[1];"
            "arguments[0].dispatchEvent(new Event('change', { bubbles: true }))", field, str(value))


def expect(what, expected, got):
    if expected != got:
        print(f"{what}: expected {expected!r}, got {got!r}")


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
    if "beam_angle_deg" not in line:
        print(f"the line about a mistake does not name the key: {line}")
    desk.press("undo")
    desk.until("document.getElementById('trouble').hidden", "the line goes with the mistake")
    desk.press("undo")


def dim(desk):
    desk.browser.execute_script("desk.select('fixture', 'key')")
    desk.settle()
    desk.until("document.getElementById('picture').dataset.passes === '3'", "the frame at rest")
    desk.browser.execute_script("changer.change([{ address: 'fixture.key.dimmer', value: '0.5' }], 'g', true)")
    desk.until("document.getElementById('picture').dataset.mixed === 'true'", "a dimmer mixes the frame anew")
    expect("of the size that it had", 48, desk.ask("document.getElementById('picture').naturalWidth"))
    desk.press("undo")
    desk.settle()


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
    desk.browser.execute_script("element('add').value = 'fixture/led-spot-40';"
                                "element('add').dispatchEvent(new Event('change'))")
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
    text = pathlib.Path(path).read_text()
    pathlib.Path(path).write_text(text.replace("output_lm = 800", "output_lm = 700"))
    desk.until("document.getElementById('outside')", "a change by another program is told")
    desk.find("#outside button").click()
    desk.until("desk.tableOf('fixture', 'key').keys.output_lm === 700", "the file is taken")
    pathlib.Path(path).write_text(text)
    desk.until("document.getElementById('outside')", "a second change is told")
    desk.find("#outside button").click()
    desk.until("desk.tableOf('fixture', 'key').keys.output_lm === 800", "the file is taken again")


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
        # As at the end of a drag: a step that moves, then the same at rest. The lamp's text is no drag.
        if request["do"] == "change" and "position" in str(move):
            desk.browser.execute_async_script("act(arguments[0]).then(arguments[1])", {**request, "moving": True})
        trouble = desk.browser.execute_async_script("act(arguments[0]).then(arguments[1])", request)
        expect(f"{move}", "", trouble)
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
    expect("no errors in the page", [], [line for line in log if "/news" not in line and "/act" not in line])
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
        outside(desk, path)
        two_tabs(desk, server)
        crash_and_go_on(browser, server, dapple, path)
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


if sys.argv[1] == "shot":
    shot(*sys.argv[2:])
else:
    test(*sys.argv[1:])
