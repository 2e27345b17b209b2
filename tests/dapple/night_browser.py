#!/usr/bin/env python3
"""Opens the page of a night in headless Chromium and uses it as its reader does.

    night_browser.py uses PAGE                    order, choice, comparing, keyboard, labels
    night_browser.py shot PAGE OUT.png WIDTH HEIGHT [compare|light]
                                                  a screenshot, to be looked at

Exit code 77: browser, driver or selenium are missing.
"""
import sys

from page_browser import open_page


def names(page):
    """Of the cards that are shown, in their order."""
    return page.execute_script("""return [...document.querySelectorAll("#cards h3")]
        .map((e) => e.lastChild.textContent)""")


def choose(page, select, text):
    from selenium.webdriver.support.ui import Select
    from selenium.webdriver.common.by import By
    Select(page.find_element(By.ID, select)).select_by_visible_text(text)


def order(page, night):
    """Sorted by a measure, either way, and by place."""
    name = "back.mean_luminance"
    by_value = [v["name"] for v in sorted(night["variants"], key=lambda v: v["measures"][name])]
    by_rank = [v["name"] for v in sorted(night["variants"], key=lambda v: v["rank"])]
    assert names(page) == by_rank, "the best is first"
    choose(page, "sort", "back mean luminance (cd/m²)")
    assert names(page) == by_value, "ordered by a measure"
    choose(page, "direction", "the highest")
    assert names(page) == by_value[::-1], "the highest first"
    choose(page, "sort", "place")
    choose(page, "direction", "the lowest")
    assert names(page) == by_rank


def choice(page, night):
    """Filters by a knob's value and by a range of a measure."""
    from selenium.webdriver.common.by import By
    page.find_element(By.CSS_SELECTOR, "#choice summary").click()
    page.find_element(By.XPATH, "//fieldset[legend='key beam angle']//label[contains(., '15°')]").click()
    assert len(names(page)) == 6 and all("beam 25" in n for n in names(page)), names(page)
    assert page.find_element(By.ID, "count").text == "6 of 12 variants"
    values = sorted(v["measures"]["back.mean_luminance"] for v in night["variants"]
                    if "beam 25" in v["name"])
    least = page.find_element(By.CSS_SELECTOR, "[aria-label^='back mean luminance: at least']")
    least.send_keys(str((values[3] + values[4]) / 2))
    assert len(names(page)) == 2, names(page)
    page.find_element(By.ID, "all").click()
    assert len(names(page)) == 12, "all are back"
    page.find_element(By.CSS_SELECTOR, "#choice summary").click()


def compare(page, night):
    """Two variants side by side, by keyboard alone."""
    from selenium.webdriver.common.by import By
    from selenium.webdriver.common.keys import Keys
    by_id = lambda name: page.find_element(By.ID, name)
    buttons = page.find_elements(By.CSS_SELECTOR, ".acts button")
    buttons[0].send_keys(Keys.ENTER)
    assert buttons[0].get_attribute("aria-pressed") == "true"
    assert not by_id("open").is_enabled(), "one alone cannot be compared"
    buttons[5].send_keys(Keys.SPACE)
    outline = page.execute_script("return getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none", "the focus can be seen"
    a, b = names(page)[0], names(page)[5]
    by_id("open").send_keys(Keys.ENTER)
    assert by_id("name-a").text == "A: " + a and by_id("name-b").text == "B: " + b
    first, second = (next(v for v in night["variants"] if v["name"] == n) for n in (a, b))
    words = by_id("differences").text
    for address, word in first["words"].items():
        if word != second["words"][address]:
            assert f"{word} → {second['words'][address]}" in words, words
    assert "back mean luminance: darker, by" in words, words
    keyboard = page.switch_to.active_element
    keyboard.send_keys("2")
    wipe = by_id("wipe")
    assert wipe.is_displayed()
    before = wipe.get_attribute("aria-valuetext")
    wipe.send_keys(Keys.ARROW_LEFT * 5)
    assert wipe.get_attribute("aria-valuetext") != before, "the wiper moves by keyboard"
    clip = page.execute_script("return getComputedStyle(document.getElementById('picture-b')).clipPath")
    assert "45%" in clip, clip
    wipe.send_keys("x")
    assert by_id("name-a").text == "A: " + b, "X swaps"
    wipe.send_keys("n")
    assert by_id("name-b").text == "B: " + names(page)[1], "N shows the next"
    wipe.send_keys("3")
    assert page.switch_to.active_element.get_attribute("value") == "difference", "the focus stays"
    assert not wipe.is_displayed() and by_id("view-note").is_displayed()
    loaded = page.execute_async_script("""const done = arguments[0];
        const image = document.getElementById("picture-b");
        const wait = () => image.complete && image.src.startsWith("file:") ? done(image.naturalWidth)
            : setTimeout(wait, 50);
        wait();""")
    assert loaded == second["size_px"][0], "the full picture from the folder"
    page.switch_to.active_element.send_keys(Keys.ESCAPE)
    assert not by_id("compare").is_displayed(), "Escape closes"


def labels(page):
    from selenium.webdriver.common.by import By
    run = page.execute_script
    unnamed = run("""return [...document.querySelectorAll("button, input, select, a, summary, img")]
        .filter((e) => !(e.getAttribute("aria-label") || e.alt || e.textContent.trim() ||
                         (e.labels && e.labels.length))).map((e) => e.outerHTML)""")
    unnamed = [text for text in unnamed if 'id="picture-' not in text]
    assert not unnamed, f"without a name: {unnamed}"
    small = run("""return [...document.querySelectorAll("button, select, .acts a")]
        .filter((e) => e.offsetParent && Math.min(e.offsetWidth, e.offsetHeight) < 24)
        .map((e) => e.outerHTML)""")
    assert not small, f"too small to touch: {small}"
    links = run("""return [...document.querySelectorAll(".acts a")].map((a) => a.getAttribute("href"))""")
    assert "beam-25-key-1-fill-1/set.toml" in links and "beam-25-key-1-fill-1/set.html" in links, links
    before = run("return getComputedStyle(document.body).backgroundColor")
    page.find_element(By.ID, "theme").click()
    assert run("return getComputedStyle(document.body).backgroundColor") != before
    choose(page, "measure", "face light (lx)")
    assert "face light" in page.find_element(By.CSS_SELECTOR, "#effects .lead").text
    far = run("return [...document.querySelectorAll('#cards img')].filter((i) => !i.src).length")
    assert far > 0, "pictures far away are not decoded yet"


def uses(path):
    page = open_page(path, size=(1000, 600))
    try:
        night = page.execute_script("return JSON.parse(document.getElementById('night').textContent)")
        labels(page)
        order(page, night)
        choice(page, night)
        compare(page, night)
        errors = [e["message"] for e in page.get_log("browser") if e["level"] == "SEVERE"]
        assert not errors, errors
    finally:
        page.quit()


def shot(path, out, width, height, view=""):
    page = open_page(path, size=(int(width), int(height)))
    click = "document.querySelectorAll(arguments[0])[arguments[1]].click()"
    if view == "light":
        page.execute_script(click, "#theme", 0)
    if view == "compare":
        page.execute_script(click, ".acts button", 0)
        page.execute_script(click, ".acts button", 1)
        page.execute_script(click, "#open", 0)
    page.execute_async_script("setTimeout(arguments[0], 500)")
    page.save_screenshot(out)
    page.quit()


if __name__ == "__main__":
    {"uses": uses, "shot": shot}[sys.argv[1]](*sys.argv[2:])
