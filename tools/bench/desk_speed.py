#!/usr/bin/python3
"""How fast the desk is under the hand, measured in its page, in headless Chromium.

    desk_speed.py DAPPLE SET.toml ... [--seconds 6] [--rest 30] [--json]

For each set a glass, a fixture and the camera are dragged to and fro in small steps, 60 a second.
A row tells, for one kind of drag:
  frames_per_s        pictures shown per second
  median_ms, p95_ms   from the step of the drag to its picture, decoded in the page
  width_px, light_px  widths of the pictures and of their light (medians)
  cpu_ms              processor time of the program per picture
  browser_cpu         processor time of the browser, seconds per second
and for the rest after it, in seconds: the first picture (first_s), one as wide as the frame
(whole_s), and the frame itself, without coarse light (true_s).
A row `cancel` tells how long work at rest goes on after a change: median and longest, ms. A row
`slider` drags a dimmer in the page: px that were drawn, ms from the slider to the finished frame.
On a machine that does other work too, only processor times can be compared.
"""
import argparse
import json
import os
import re
import shutil
import statistics
import subprocess
import time

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

INSTRUMENTS = """
const log = window.speedLog = { sent: {}, shown: [] };
const send = window.fetch;
let last = state.set.version;
window.fetch = async (url, options) => {
  if (url !== 'act') return send(url, options);
  const start = performance.now();
  const answer = await send(url, options);
  if (answer.ok && JSON.parse(options.body).do === 'change') log.sent[++last] = start;
  return answer;
};
new MutationObserver(() => {
  const data = document.getElementById('picture').dataset;
  log.shown.push({ version: Number(data.version), width: Number(data.width), light: Number(data.light), waited: Number(data.waited), passes: Number(data.passes), at: performance.now() });
}).observe(document.getElementById('picture'), { attributes: true, attributeFilter: ['data-passes', 'data-width', 'data-version'] });
"""

# Steps of 5 mm on a circle of 15 cm. The last one is at rest.
DRAG = """
const [address, key, place, seconds, done] = arguments;
speedLog.shown.length = 0;
const start = speedLog.start = performance.now();
const gesture = String(start);
function step() {
  const t = (performance.now() - start) / 1000;
  const x = place[0] + 0.15 * Math.sin(2 * t), z = place[2] + 0.15 * Math.cos(2 * t) - 0.15;
  const isOver = t > seconds;
  changer.change([{ address: `${address}.${key}`, value: tomlPoint([x, place[1], z]) }], gesture, !isOver);
  if (isOver) { speedLog.rest = performance.now(); done(speedLog.shown.length); } else requestAnimationFrame(step);
}
step();
"""


# Steps of a dimmer, 50 a second. The first ones find how finely there is time to draw.
SLIDE = """
const [address, done] = arguments;
mixer.timings.length = 0;
function step(i) {
  mixer.slide([{ address: `${address}.dimmer`, value: String(0.3 + 0.01 * (i % 60)) }], true);
  if (i < 150) setTimeout(() => step(i + 1), 20);
  else setTimeout(() => done([mixer.timings.slice(30), document.getElementById('mixed').width, mixer.film().width, mixer.kind()]), 500);
}
step(0);
"""


def cpu_seconds(pid):
    fields = open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def cpu_of_children(pid):
    """Processor time of all processes below one, seconds."""
    parents = {}
    for name in os.listdir("/proc"):
        try:
            parents[int(name)] = int(open(f"/proc/{name}/stat").read().rsplit(")", 1)[1].split()[1])
        except (ValueError, OSError):
            continue
    below, total = [pid], 0.0
    while below:
        one = below.pop()
        below += [child for child, parent in parents.items() if parent == one]
        try:
            total += cpu_seconds(one)
        except OSError:
            continue
    return total


def open_browser():
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium")
    for argument in ["--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--window-size=1366,855"]:
        options.add_argument(argument)
    browser = webdriver.Chrome(service=Service(shutil.which("chromedriver")), options=options)
    browser.set_script_timeout(600)
    return browser


def until(browser, script, seconds):
    end = time.time() + seconds
    while time.time() < end:
        if browser.execute_script("return " + script):
            return True
        time.sleep(0.05)
    return False


def at_share(values, share):
    values = sorted(values)
    return round(values[min(len(values) - 1, int(share * len(values)))], 1) if values else None


def rows_of(log, seconds, cpu):
    """The newest picture of each version counts once: its first showing."""
    first = {}
    for shown in log["shown"]:
        first.setdefault(shown["version"], shown)
    rest = log["rest"]
    sent = {int(version): at for version, at in log["sent"].items() if at >= log["start"]}
    drag = [s for s in first.values() if s["at"] < rest and s["version"] in sent]
    waits = sorted(s["at"] - sent[s["version"]] for s in drag)
    after = [s for s in log["shown"] if s["at"] >= rest and s["version"] == max(first)]

    def since(width, key="width"):
        times = [s["at"] - rest for s in after if s[key] >= width]
        return round(times[0] / 1000, 2) if times else None

    return {
        "frames_per_s": round(len(drag) / seconds, 1),
        "median_ms": round(statistics.median(waits)) if waits else None,
        "p95_ms": at_share(waits, 0.95),
        "width_px": statistics.median(s["width"] for s in drag) if drag else None,
        "light_px": statistics.median(s["light"] for s in drag) if drag else None,
        "cpu_ms": round(1000 * cpu / len(drag)) if drag else None,
        "first_s": since(1),
        "whole_s": since(log["whole"]),
        "true_s": since(log["whole"], "light"),
    }


def cancel_row(browser, table):
    """Changes at rest, while the frame is rendered pass after pass."""
    x, y, z = table["keys"]["position"]
    waits = []
    for i in range(12):
        place = [x + 0.01 * (i % 2 + 1), y, z]
        time.sleep(1.0 + 0.13 * i)
        browser.execute_script("speedLog.shown.length = 0; changer.change([{ address: arguments[0] + '.position', value: tomlPoint(arguments[1]) }])",
                               table["address"], place)
        until(browser, "speedLog.shown.some((s) => s.version === state.set.version)", 30)
        waits += browser.execute_script("return speedLog.shown.filter((s) => s.version === state.set.version).slice(0, 1).map((s) => s.waited)")
    return {"median_ms": at_share([1000 * w for w in waits], 0.5), "longest_ms": at_share([1000 * w for w in waits], 1)}


def slider_row(browser, width, seconds):
    table = browser.execute_script("return state.set.tables.find((t) => t.kind === 'fixture' && t.keys.source !== 'tungsten')"
                                   " || state.set.tables.find((t) => t.kind === 'fixture')")
    browser.execute_script("selectTable(state.set.tables.find((t) => t.address === arguments[0]))", table["address"])
    if not until(browser, f"mixer.film() && mixer.film().width >= {min(width, 480)} && mixer.version() === state.set.version", seconds):
        return {"why": "no light"}
    times, drawn, film, kind = browser.execute_async_script(SLIDE, table["address"])
    return {"drawn_px": drawn, "film_px": film, "by": kind, "median_ms": at_share(times, 0.5), "p95_ms": at_share(times, 0.95)}


def measure(dapple, path, arguments):
    server = subprocess.Popen([dapple, "desk", path, "--no-browser"], stdout=subprocess.PIPE, text=True)
    url = re.search(r"http://\S+", server.stdout.readline()).group(0)
    browser = open_browser()
    rows = []
    try:
        browser.get(url)
        whole = "Number(document.getElementById('picture').dataset.passes) >= 1 && state.drawing"
        until(browser, whole, 120)
        time.sleep(2)
        browser.execute_script(INSTRUMENTS)
        for kind in arguments.kinds:
            table = browser.execute_script(
                "return state.set.tables.find((t) => t.kind === arguments[0] && Array.isArray(t.keys.position)"
                " && t.address) || null", kind)
            if not table:
                continue
            before, browser_before = cpu_seconds(server.pid), cpu_of_children(browser.service.process.pid)
            browser.execute_async_script(DRAG, table["address"], "position", table["keys"]["position"], arguments.seconds)
            cpu = cpu_seconds(server.pid) - before
            browser_cpu = (cpu_of_children(browser.service.process.pid) - browser_before) / arguments.seconds
            width = browser.execute_script("return state.set.tables.find((t) => t.kind === 'camera').keys.frame_px?.[0] || 960")
            width = min(width, 960)
            until(browser, f"speedLog.shown.some((s) => s.at > speedLog.rest && s.light >= {width})", arguments.rest)
            log = browser.execute_script("return speedLog")
            log["whole"] = width
            rows.append({"set": os.path.basename(path), "drag": kind, **rows_of(log, arguments.seconds, cpu), "browser_cpu": round(browser_cpu, 2)})
        if arguments.others:
            rows.append({"set": os.path.basename(path), "drag": "cancel", **cancel_row(browser, table)})
            rows.append({"set": os.path.basename(path), "drag": "slider", **slider_row(browser, width, arguments.rest)})
    finally:
        browser.quit()
        server.terminate()
        server.wait(30)
    return rows


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("dapple")
    parser.add_argument("sets", nargs="+")
    parser.add_argument("--seconds", type=float, default=6)
    parser.add_argument("--rest", type=float, default=30)
    parser.add_argument("--kinds", nargs="+", default=["glass", "fixture", "camera"])
    parser.add_argument("--others", action="store_true", help="also the rows cancel and slider")
    parser.add_argument("--json", action="store_true")
    arguments = parser.parse_args()
    load = os.getloadavg()[0]
    print(f"load {load:.1f}, {os.cpu_count()} cores")
    for path in arguments.sets:
        for row in measure(arguments.dapple, path, arguments):
            print(json.dumps(row) if arguments.json else "  ".join(f"{key} {value}" for key, value in row.items()), flush=True)


main()
