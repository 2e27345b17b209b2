"""What the desk does with a set that has a mistake, and where nothing can be written."""
import pathlib
import signal

from desk_page import Desk, Server, expect

SET = """[room]
size_m = [4.0, 4.0, 2.6]
[camera]
position = [0.0, 1.2, 1.5]
aim = [0.0, 1.0, -2.0]
focal_length_mm = 28
frame_px = [48, 32]
[[fixture]]
name = "key"
kit = "led-spot-40"
focus = 0.5
position = [1.0, 2.0, 1.0]
aim = [0.0, 0.5, -1.0]
"""


def saved_with_a_mistake(desk, path):
    desk.browser.execute_script("desk.select('camera', '')")
    desk.type("focal length", 0)
    desk.until("element('trouble').textContent.includes('camera: focal length is 0')", "a focal length of 0 is told")
    expect("the frame says that it waits", True, "The frame waits" in desk.find("#trouble").text)
    desk.find("#save").click()
    desk.until("document.querySelector('#wrong-form[open]')", "saving says that there is a mistake")
    expect("which", True, "camera: focal length is 0" in desk.find("#mistakes").text)
    desk.find("#wrong-form .cancel").click()
    expect("nothing is written yet", SET, path.read_text())
    desk.find("#save").click()
    desk.find("#wrong-form [type=submit]").click()
    desk.until("state.set.saved", "it can be saved all the same")
    expect("its name says so", "own.toml, saved, with a mistake", desk.find("#file").text)
    expect("and holds what was typed", SET.replace("= 28", "= 0"), path.read_text())


def opened_with_a_mistake(browser, server):
    browser.get(server.url)
    desk = Desk.__new__(Desk)  # there is no room to be seen yet
    desk.browser = browser
    desk.until("!element('no-frame').hidden", "a set with a mistake says why there is no frame")
    desk.until("element('trouble').textContent.includes('camera: focal length is 0')", "and what is wrong")
    desk.until("state.selected?.kind === 'camera'", "where it is wrong is chosen")
    desk.type("focal length", 28)
    desk.until("element('no-frame').hidden && element('picture').dataset.version && state.drawing", "it is mended here")
    desk.settle()
    desk.find("#save").click()
    desk.until("state.set.saved && !document.querySelector('dialog[open]')", "and saved without a question")
    return desk


def where_nothing_can_be_written(desk, path):
    """The side file's name is taken by a folder, as a full disk would refuse it."""
    stop = pathlib.Path("own.toml.unsaved.partial")
    stop.mkdir()
    desk.browser.execute_script("desk.select('fixture', 'key')")
    desk.type("focus", 0.25)
    desk.until("desk.tableOf('fixture', 'key').keys.focus === 0.25", "the value is in the set")
    desk.settle()
    desk.until("document.getElementById('not-safe')", "that it is not safe is told")
    expect("it can be undone", False, desk.ask("element('undo').disabled"))
    stop.rmdir()
    desk.until("!document.getElementById('not-safe')", "as soon as it can be written, it is")
    expect("beside the set", True, "focus = 0.25" in pathlib.Path("own.toml.unsaved").read_text())
    stop.mkdir()
    desk.type("focus", 0.75)
    desk.until("document.getElementById('not-safe')", "not safe again")
    elsewhere = pathlib.Path("elsewhere").absolute()
    desk.find("#not-safe button").click()
    folder = desk.find("#name-form [name=folder]")
    expect("the folder of the set is there to be changed", str(path.absolute().parent), folder.get_attribute("value"))
    desk.browser.execute_script("arguments[0].value = arguments[1]", folder, str(elsewhere))
    desk.find("#name-form [type=submit]").click()
    desk.until("element('name-form').textContent.includes('there is no such folder')", "a folder that is not there is told")
    elsewhere.mkdir()
    desk.find("#name-form [type=submit]").click()
    desk.until("state.set.saved", "saved elsewhere")
    expect("what was done is there", True, "focus = 0.75" in (elsewhere / "own.toml").read_text())
    expect("the first file is as it was", SET, path.read_text())
    stop.rmdir()
    pathlib.Path("own.toml.unsaved").unlink(missing_ok=True)


def beam_of_a_focus(desk):
    """It focuses from 10° to 50°."""
    desk.until("element('focused-beam').textContent === '40, by the focus'", "the focus says how wide the beam is")
    expect("and nothing else does", None, desk.ask("document.querySelector(\"#keys [aria-label='beam angle']\")"))


def focus_of_the_camera(desk):
    desk.browser.execute_script("desk.select('camera', '')")
    focus = "#keys [aria-label='focused on']"
    expect("a camera without focus says so", "everything sharp", desk.ask(f'document.querySelector("{focus}").selectedOptions[0].text'))
    choose = f"const e = document.querySelector(\"{focus}\"); e.value = arguments[0]; e.dispatchEvent(new Event('change'))"
    desk.browser.execute_script(choose, "3.0")
    desk.until("desk.tableOf('camera', '').keys.focus_m === 3", "it is focused at a distance")
    desk.browser.execute_script(choose, "")
    desk.until("desk.tableOf('camera', '').keys.focus_m === undefined", "and all is sharp again")


def try_saving(browser, dapple):
    path = pathlib.Path("own.toml")
    path.write_text(SET)
    server = Server(dapple, str(path), "--passes", "1")
    try:
        saved_with_a_mistake(Desk(browser, server), path)
    finally:
        server.end()
    server = Server(dapple, str(path), "--passes", "1")
    try:
        desk = opened_with_a_mistake(browser, server)
        where_nothing_can_be_written(desk, path)
        beam_of_a_focus(desk)
        focus_of_the_camera(desk)
    finally:
        server.end(signal.SIGKILL)
