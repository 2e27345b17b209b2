// CSV spectra as different programs write them.
#include "set/read_spectrum.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

using namespace dapple;

namespace {

struct Read {
    std::vector<SpectrumPoint> points;
    std::vector<std::string> lines;
};

Read read_text(const std::string& text) {
    const auto path = std::filesystem::temp_directory_path() /
                      ("dapple_spectrum_" + std::to_string(::getpid()) + ".csv");
    std::ofstream(path, std::ios::binary) << text;
    Problems problems;
    Read read;
    read.points = read_spectrum(path.string(), problems);
    for (const Problem& problem : problems.all()) {
        read.lines.push_back(to_string(problem).substr(path.string().size()));
    }
    std::filesystem::remove(path);
    return read;
}

}  // namespace

TEST_CASE("points are read with any usual separator, line end and heading") {
    for (const char* text : {"400,0.5\n410,0.25\n",
                             "nm;transmittance\r\n400;0,5\r\n410;0,25\r\n",
                             "\xef\xbb\xbf# a sheet\n\n400\t0.5\n410\t0.25",
                             "wavelength value\r400 0.5\r410 2.5e-1\r",
                             "400, 0.5, 7\n410, .25, 8\n"}) {
        const Read read = read_text(text);
        CAPTURE(text);
        CHECK(read.lines.empty());
        REQUIRE(read.points.size() == 2);
        CHECK(read.points[0].nm == 400);
        CHECK(read.points[0].value == 0.5);
        CHECK(read.points[1].nm == 410);
        CHECK(read.points[1].value == 0.25);
    }
}

TEST_CASE("each point has its line") {
    const Read read = read_text("nm,T\n400,1\n\n410,1\n");
    REQUIRE(read.points.size() == 2);
    CHECK(read.points[1].place.line == 4);
}

TEST_CASE("a line that is not a point is reported") {
    const Read read = read_text("400,1\n410,x\n");
    REQUIRE(read.lines.size() == 1);
    CHECK(read.lines[0] == ":2: is \"410,x\"; must be a wavelength in nm and a value");
    REQUIRE(read_text("no numbers here\n").lines.size() == 1);
    REQUIRE(read_text("").lines.size() == 1);
    CHECK(read_text("400,nan\n410,1\n").points.size() ==
          1);  // the first line is taken for a heading
}
