"""A program that serves the desk, a browser, and the desk's page as its user meets it."""
import http.client
import json
import re
import signal
import subprocess
import time

from browser import start_browser

PATIENCE_S = 120  # for machines that do other work too


class Server:
    def __init__(self, dapple, path, *options, folder=None):
        """`path` None: a desk without a set."""
        self.process = subprocess.Popen(
            [dapple, "desk", *([path] if path else []), "--no-browser", *options], stdout=subprocess.PIPE, text=True,
            cwd=folder)
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
    return start_browser(size, "--hide-scrollbars")


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
        from selenium.common.exceptions import StaleElementReferenceException
        before = self.version()
        for attempt in range(5):
            try:
                chain = ActionChains(self.browser).click_and_hold(self.find(selector))
                for _ in range(4):
                    chain.move_by_offset(dx // 4, dy // 4)
                chain.release().perform()
                break
            except StaleElementReferenceException:  # drawn anew before the hand came down
                if attempt == 4:
                    raise
        self.until(f"state.set.version > {before}", "the set is changed by dragging")
        self.settle()

    def drag_in_frame(self, start, step):
        """From a place, as shares of the frame, by a step in pixels."""
        from selenium.webdriver.common.action_chains import ActionChains
        before = self.version()
        stage = self.find("#stage")
        width, height = stage.size["width"], stage.size["height"]
        chain = ActionChains(self.browser).move_to_element_with_offset(
            stage, round((start[0] - 0.5) * width), round((start[1] - 0.5) * height)).click_and_hold()
        for _ in range(4):
            chain.move_by_offset(step[0] // 4, step[1] // 4)
        chain.release().perform()
        self.until(f"state.set.version > {before}", "the set is changed by dragging in the frame")
        self.settle()

    def slide(self, label, values):
        """Moves a slider of the chosen thing without letting it go."""
        self.browser.execute_script(
            "const slider = document.querySelector(`[aria-label='${arguments[0]}']`);"
            "for (const value of arguments[1]) { slider.value = value;"
            " slider.dispatchEvent(new Event('input', { bubbles: true })); }", label, values)

    def let_go(self, label):
        self.browser.execute_script(
            "document.querySelector(`[aria-label='${arguments[0]}']`).dispatchEvent(new Event('change', { bubbles: true }))",
            label)

    def rest(self, passes):
        """Until all passes of the newest set are shown."""
        self.settle()
        self.until(f"document.getElementById('picture').dataset.passes === '{passes}'", "the frame at rest")

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
