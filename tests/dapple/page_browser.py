#!/usr/bin/env python3
"""Opens pages of dapple sheet in headless Chromium and compares them with dapple rebalance.

    page_browser.py compare PAGE webgl2|canvas [SETTINGS PNG STATS] ...
                                                         pixels within 1/255, meters the same
    page_browser.py uses PAGE                            keyboard, labels, readings, comparing
    page_browser.py shot PAGE OUT.png WIDTH HEIGHT [map] a screenshot, to be looked at

SETTINGS is JSON: {"key": {"dimmer": 0.5}, "net": {"cct_k": 4800}}. WebGL runs by software. The
driver is started here, on a free port. Exit code 77: browser, driver or selenium are missing.
"""
import json
import pathlib
import struct
import sys
import zlib

from browser import start_browser


def open_page(path, fragment="", size=(1400, 900)):
    page = start_browser(size, "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
                         "--force-color-profile=srgb",
                         "--proxy-server=127.0.0.1:9")  # no network
    # Only now: start_browser says so if selenium is missing.
    from selenium.common.exceptions import TimeoutException
    from selenium.webdriver.support.ui import WebDriverWait
    page.set_script_timeout(120)
    page.get(pathlib.Path(path).resolve(strict=True).as_uri() + fragment)
    try:
        WebDriverWait(page, 40).until(
            lambda p: p.execute_script("return document.body.dataset.ready"))
    except TimeoutException:
        log = [entry["message"] for entry in page.get_log("browser")]
        page.quit()
        sys.exit(f"the page is not ready after 40 s: {log}")
    return page


def read_png(path):
    """Width, height and bytes of an 8-bit RGB picture."""
    data = pathlib.Path(path).read_bytes()
    at, packed = 8, b""
    width = height = 0
    while at < len(data):
        size, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + size]
        if kind == b"IHDR":
            width, height, bits, colour = struct.unpack(">IIBB", body[:10])
            assert (bits, colour) == (8, 2), "not 8-bit RGB"
        if kind == b"IDAT":
            packed += body
        at += 12 + size
    rows = zlib.decompress(packed)
    stride, above, out = 3 * width, bytes(3 * width), []
    for y in range(height):
        kind = rows[y * (stride + 1)]
        row = bytearray(rows[y * (stride + 1) + 1:(y + 1) * (stride + 1)])
        for i in range(stride):
            left = row[i - 3] if i >= 3 else 0
            corner = above[i - 3] if i >= 3 else 0
            guess = (0, left, above[i], (left + above[i]) // 2, paeth(left, above[i], corner))[kind]
            row[i] = (row[i] + guess) & 255
        out.append(bytes(row))
        above = row
    return width, height, b"".join(out)


def paeth(a, b, c):
    p = a + b - c
    return min((abs(p - a), 0, a), (abs(p - b), 1, b), (abs(p - c), 2, c))[2]


def pixels_of(page):
    import base64
    text = page.execute_script("""
        const pixels = window.dapple.pixels();
        let text = "";
        for (let i = 0; i < pixels.length; i += 8192)
            text += String.fromCharCode(...pixels.subarray(i, i + 8192));
        return btoa(text);""")
    data = base64.b64decode(text)
    return b"".join(data[i:i + 3] for i in range(0, len(data), 4))


def compare(path, how, *cases):
    """`cases`: settings, picture and statistics of dapple rebalance, again and again."""
    page = open_page(path, "#canvas" if how == "canvas" else "")
    try:
        kind = page.execute_script("return document.body.dataset.ready")
        assert kind == how, f"drawn by {kind}, not {how}"
        for settings, png, stats in zip(cases[0::3], cases[1::3], cases[2::3]):
            page.execute_script("window.dapple.reset()")
            for name, values in json.loads(settings).items():
                page.execute_script("window.dapple.set(arguments[0], arguments[1])", name, values)
            wait(page)
            compare_pixels(settings, pixels_of(page), png)
            compare_meters(page, json.loads(pathlib.Path(stats).read_text())["meters"])
    finally:
        page.quit()


def wait(page):
    """Until what was changed has been drawn."""
    page.execute_async_script("requestAnimationFrame(() => requestAnimationFrame(arguments[0]))")


def compare_pixels(settings, shown, png):
    width, height, wanted = read_png(png)
    assert len(shown) == len(wanted), f"{settings}: the sizes differ"
    worst = max(abs(a - b) for a, b in zip(shown, wanted))
    assert worst <= 1, f"{settings}: a difference of {worst}/255 in {width} x {height} pixels"


def compare_meters(page, meters):
    rows = page.execute_script("""return [...document.querySelectorAll("#readings tbody tr")]
        .map((row) => [...row.children].map((cell) => cell.textContent))""")
    for meter, row in zip(meters, rows):
        assert row[0] == meter["name"], row
        # Three digits are shown.
        assert abs(float(row[1]) / meter["lux"] - 1) < 0.005, (row, meter["lux"])
        assert row[2] == "f/" + meter["f_stop"], (row, meter["f_stop"])


def uses(path):
    from selenium.webdriver.common.by import By
    from selenium.webdriver.common.keys import Keys
    page = open_page(path)
    try:
        run = page.execute_script
        body = page.find_element(By.TAG_NAME, "body")
        unnamed = run("""return [...document.querySelectorAll("button, input, select, canvas[role]")]
            .filter((e) => !(e.getAttribute("aria-label") || e.textContent.trim() ||
                             (e.labels && e.labels.length))).length""")
        assert unnamed == 0, f"{unnamed} controls have no name"
        text = lambda selector: page.find_element(By.CSS_SELECTOR, selector).text
        before, first = pixels_of(page), text("#readings tbody tr")
        slider = page.find_element(By.CSS_SELECTOR, ".fixture input")
        for _ in range(10):
            slider.send_keys(Keys.ARROW_LEFT)
        wait(page)
        dimmed = pixels_of(page)
        assert dimmed != before, "a slider by keyboard changes the frame"
        assert text("#readings tbody tr") != first, "the readings follow the slider"
        assert "−" in page.find_element(By.CSS_SELECTOR, ".fixture output").text
        assert ".dimmer=" in text("#command"), "the command follows the slider"
        outline = run("return getComputedStyle(document.activeElement).outlineStyle")
        assert outline != "none", "the focus can be seen"
        body.send_keys("b")
        wait(page)
        assert pixels_of(page) == before, "before shows the film as rendered"
        assert page.find_element(By.ID, "before").get_attribute("aria-pressed") == "true"
        body.send_keys("b")
        run("document.dispatchEvent(new KeyboardEvent('keydown', {key: 'c'}))")
        wait(page)
        assert pixels_of(page) == before, "holding C shows the film as rendered"
        run("document.dispatchEvent(new KeyboardEvent('keyup', {key: 'c'}))")
        wait(page)
        assert pixels_of(page) == dimmed, "letting go shows the changed light"
        body.send_keys("s")
        wait(page)
        assert pixels_of(page) != dimmed and page.find_element(By.ID, "legend").is_displayed()
        body.send_keys("s")
        body.send_keys("r")
        wait(page)
        assert pixels_of(page) == before, "R brings everything back"
        mute = page.find_element(By.CSS_SELECTOR, ".fixture .head button:last-child")
        mute.click()
        wait(page)
        assert mute.get_attribute("aria-pressed") == "true" and "--off" in text("#command")
        errors = [e["message"] for e in page.get_log("browser") if e["level"] == "SEVERE"]
        assert not errors, errors
    finally:
        page.quit()


def shot(path, out, width, height, view=""):
    page = open_page(path, size=(int(width), int(height)))
    if view == "map":
        page.execute_script("document.getElementById('map').click()")
        page.execute_async_script("setTimeout(arguments[0], 300)")
    page.save_screenshot(out)
    page.quit()


if __name__ == "__main__":
    {"compare": compare, "uses": uses, "shot": shot}[sys.argv[1]](*sys.argv[2:])
