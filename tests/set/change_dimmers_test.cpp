#include "set/change_dimmers.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

std::string changed(const std::string& text, const std::map<std::string, double>& dimmers) {
    Problems problems;
    const std::string result = change_dimmers("set.toml", text, dimmers, problems);
    return problems.empty() ? result : to_string(problems.all().front());
}

}  // namespace

TEST_CASE("only the numbers change; comments, blanks and order stay") {
    CHECK(changed("# Ünlit\n[[fixture]]\nname = \"Öl\"  # the söft one\n  dimmer=0.33 # ⅓\n\n"
                  "[[fixture]] # two\ndimmer = 1\nname = 'key'\r\n",
                  {{"Öl", 0.5}, {"key", 0.12345}}) ==
          "# Ünlit\n[[fixture]]\nname = \"Öl\"  # the söft one\n  dimmer=0.5 # ⅓\n\n"
          "[[fixture]] # two\ndimmer = 0.1235\nname = 'key'\r\n");
}

TEST_CASE("a fixture without a dimmer gets one below its name") {
    CHECK(changed("[[fixture]]\nname = \"key\" # main\ncct_k = 3200\n", {{"key", 1}}) ==
          "[[fixture]]\nname = \"key\" # main\ndimmer = 1.0\ncct_k = 3200\n");
    CHECK(changed("[[fixture]]\nname = \"key\"", {{"key", 0.25}}) ==
          "[[fixture]]\nname = \"key\"\ndimmer = 0.25");
    CHECK(changed("fixture = [{ name = \"ä\", cct_k = 3200 }, { name = \"b\", dimmer = 1 }]",
                  {{"ä", 0.25}, {"b", 0.001}}) ==
          "fixture = [{ name = \"ä\", dimmer = 0.25, cct_k = 3200 }, "
          "{ name = \"b\", dimmer = 0.001 }]");
}

TEST_CASE("other tables and other fixtures are left alone") {
    const std::string text =
        "[[flag]]\nname = \"key\"\n[[fixture]]\nname = \"fill\"\ndimmer = 1\n"
        "[[fixture]]\nname = \"key\"\ndimmer = 1\n";
    CHECK(changed(text, {{"key", 0.5}}) ==
          "[[flag]]\nname = \"key\"\n[[fixture]]\nname = \"fill\"\ndimmer = 1\n"
          "[[fixture]]\nname = \"key\"\ndimmer = 0.5\n");
    CHECK(changed(text, {}) == text);
}

TEST_CASE("a fixture that the file does not have is reported, and so is a broken file") {
    CHECK(
        changed("[[fixture]]\nname = \"key\"\n", {{"moon", 0.5}}) ==
        "set.toml: fixture.moon.dimmer: the set has none of the name \"moon\"; there are \"key\"");
    CHECK(changed("title = \n", {{"moon", 0.5}}).starts_with("set.toml:1:"));
}
