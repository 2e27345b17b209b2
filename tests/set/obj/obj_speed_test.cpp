// Large scans are read in seconds.
#include <doctest/doctest.h>

#include <cstdio>
#include <ctime>

#include "obj_helpers.h"

using namespace dapple;

namespace {

// A sheet of 2 n² triangles with texture coordinates and normals.
std::string make_scan(int n) {
    std::string text = "s 1\n";
    for (int j = 0; j <= n; ++j) {
        for (int i = 0; i <= n; ++i) {
            char line[160];
            const int size =
                std::snprintf(line,
                              sizeof(line),
                              "v %.6f %.6f %.6f\nvt %.6f %.6f\nvn %.4f 0.9950 0.0500\n",
                              i * 0.0141421,
                              std::sin(i * 0.01) * std::cos(j * 0.013),
                              j * 0.0141421,
                              i / double{1000},
                              j / double{1000},
                              0.05 + i * 1e-5);
            text.append(line, static_cast<size_t>(size));
        }
    }
    const auto corner = [](int k) {
        const std::string one = std::to_string(k);
        return " " + one + "/" + one + "/" + one;
    };
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            const int a = j * (n + 1) + i + 1;
            const int c = a + n + 1;
            text += "f" + corner(a) + corner(c) + corner(a + 1) + "\n";
            text += "f" + corner(a + 1) + corner(c) + corner(c + 1) + "\n";
        }
    }
    return text;
}

}  // namespace

TEST_CASE("a million triangles with normals are read in seconds" * doctest::test_suite("slow")) {
    const std::string text = make_scan(708);
    Problems problems;
    const std::clock_t start = std::clock();  // processor time, as other programs may be running
    const ModelDescription model = read_lines(text, problems);
    const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    MESSAGE("read " << model.triangles.size() << " triangles in " << seconds << " s");
    CHECK(problems.empty());
    CHECK(model.triangles.size() == 2 * 708 * 708);
    CHECK(model.triangles.capacity() == model.triangles.size());
    // Measured: 0.6 s on one server core of the 2020s with optimisation; up to ten times as long in
    // debug and sanitizer builds.
    CHECK(seconds < 6);
}
