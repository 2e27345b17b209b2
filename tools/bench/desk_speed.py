#!/usr/bin/python3
"""How fast the desk is under the hand, measured in its page, in headless Chromium.

    desk_speed.py DAPPLE SET.toml ... [--seconds 6] [--rest 30] [--json]

For each set a glass, a fixture and the camera are dragged to and fro in small steps, 60 a second.
A row tells, for one kind of drag:
  frames/s   pictures shown per second
  median, p95  ms from the step of the drag to its picture, decoded in the page
  px         width of the pictures (median)
  cpu        processor time of the program per picture, ms
and for the rest after it, in seconds: the first picture, 480 px, and the whole frame. On a machine
that does other work too, only `cpu` can be compared.
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
  log.shown.push({ version: Number(data.version), width: Number(data.width), passes: Number(data.passes), at: performance.now() });
}).observe(document.getElementById('picture'), { attributes: true, attributeFilter: ['data-passes', 'data-width', 'data-version'] });
"""

# Steps of 5 mm on a circle of 15 cm. The last one is at rest.
DRAG = """
const [address, key, place, seconds, done] = arguments;
speedLog.shown.length = 0;
const start = performance.now();
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


def cpu_seconds(pid):
    fields = open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


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


def rows_of(log, seconds, cpu):
    """The newest picture of each version counts once: its first showing."""
    first = {}
    for shown in log["shown"]:
        first.setdefault(shown["version"], shown)
    rest = log["rest"]
    drag = [s for s in first.values() if s["at"] < rest]
    waits = sorted(s["at"] - log["sent"][str(s["version"])] for s in drag if str(s["version"]) in log["sent"])
    after = [s for s in log["shown"] if s["at"] >= rest and s["version"] == max(first)]

    def since(width):
        times = [s["at"] - rest for s in after if s["width"] >= width]
        return round(times[0] / 1000, 2) if times else None

    return {
        "frames_per_s": round(len(drag) / seconds, 1),
        "median_ms": round(statistics.median(waits)) if waits else None,
        "p95_ms": round(waits[min(len(waits) - 1, int(0.95 * len(waits)))]) if waits else None,
        "width_px": statistics.median(s["width"] for s in drag) if drag else None,
        "cpu_ms": round(1000 * cpu / len(drag)) if drag else None,
        "first_s": since(1),
        "px480_s": since(480),
        "whole_s": since(log["whole"]),
    }


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
            before = cpu_seconds(server.pid)
            browser.execute_async_script(DRAG, table["address"], "position", table["keys"]["position"], arguments.seconds)
            cpu = cpu_seconds(server.pid) - before
            width = browser.execute_script("return state.set.tables.find((t) => t.kind === 'camera').keys.frame_px?.[0] || 960")
            width = min(width, 960)
            until(browser, f"speedLog.shown.some((s) => s.at > speedLog.rest && s.width >= {width})", arguments.rest)
            log = browser.execute_script("return speedLog")
            log["whole"] = width
            rows.append({"set": os.path.basename(path), "drag": kind, **rows_of(log, arguments.seconds, cpu)})
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
    parser.add_argument("--json", action="store_true")
    arguments = parser.parse_args()
    load = os.getloadavg()[0]
    print(f"load {load:.1f}, {os.cpu_count()} cores")
    for path in arguments.sets:
        for row in measure(arguments.dapple, path, arguments):
            print(json.dumps(row) if arguments.json else "  ".join(f"{key} {value}" for key, value in row.items()), flush=True)


main()
