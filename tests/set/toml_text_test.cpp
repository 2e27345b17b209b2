// What a set file says about itself in plain words where it is no TOML, or not UTF-8.
#include "set/toml_text.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "set/read_set.h"

using namespace dapple;

namespace {

std::string mistake_in(const std::string& text) {
    Problems problems;
    read_set_text(text, "set.toml", problems);
    return problems.empty() ? "" : to_string(problems.all().front());
}

std::string refusal_of(const std::string& bytes) {
    const auto path = std::filesystem::temp_directory_path() / "dapple_toml_text_test.toml";
    std::ofstream(path, std::ios::binary) << bytes;
    try {
        read_toml_text(path.string());
    } catch (const FileError& error) {
        return std::string(error.what()).substr(path.string().size());
    }
    return "";
}

}  // namespace

TEST_CASE("a key or a table that is given twice is told with its first line") {
    CHECK(mistake_in("[[fixture]]\ngel = \"1/2 CTO\"\n\n[[fixture]]\ngel = \"1/4 CTO\"\n"
                     "dimmer = 1\n  gel = \"none\"\n")
              .ends_with(": gel is given twice, first in line 5"));
    CHECK(mistake_in("[room]\nsize_m = [4, 5, 3]\n[camera]\niso = 800\n[room]\nreflectance = 0.5\n")
              .ends_with(": [room] is given twice, first in line 1"));
}

TEST_CASE("another encoding is told in plain words") {
    const std::string utf16("\xff\xfe[\0r\0", 6);
    const std::string says = ": is UTF-16; save it as plain text in UTF-8";
    CHECK(refusal_of(utf16) == says);
    CHECK(refusal_of(utf16.substr(2)) == says);
    CHECK(refusal_of("\xef\xbb\xbf[room]\r\n") == "");  // UTF-8 with a mark
    CHECK(mistake_in("title = \"Caf\xe9 noir\"\n")
              .ends_with(": is not UTF-8; save it as plain text in UTF-8"));
}

TEST_CASE("a focal length in words has an example in millimetres") {
    CHECK(mistake_in("[camera]\nfocal_length_mm = \"wide\"\n")
              .ends_with("focal_length_mm: is \"wide\", which is no number; write a length in mm, "
                         "such as 85 or "
                         "\"85 mm\""));
}
