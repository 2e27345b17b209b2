"""Starts headless Chromium for the tests of pages. The driver is started here, on a free port."""
import shutil
import sys

SKIP = 77  # exit code: browser, driver or selenium are missing


def start_browser(size, *arguments):
    """A browser with a window of (width, height) pixels and further arguments; ends the test with
    exit code SKIP if there is none."""
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
    for argument in ["--headless=new", "--no-sandbox", "--disable-dev-shm-usage",
                     "--force-device-scale-factor=1", f"--window-size={size[0]},{size[1]}",
                     *arguments]:
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    return webdriver.Chrome(service=Service(driver), options=options)
