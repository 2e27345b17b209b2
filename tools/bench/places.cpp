// Rates places of a search quickly and thoroughly, for tools/bench/search: one line of CSV for each
// place, with what it costs in processor time.
#include <sys/resource.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <iostream>

#include "base/kept_parts.h"
#include "base/random.h"
#include "search/rate_place.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

struct Options {
    std::string set;
    SearchWords words;
    QuickLook look;
    int places = 40;
    int first = 0;
    uint64_t draw = 1;
    std::vector<double> at;  // a place, 0 to 1 in each dimension; empty: random ones
};

double processor_seconds() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& t) {
        return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

std::vector<double> random_place(uint64_t draw, uint64_t index, size_t dimensions) {
    std::vector<double> u;
    for (size_t d = 0; d < dimensions; ++d) {
        const uint64_t bits = mix_bits(mix_bits(draw, index), d);
        u.push_back(static_cast<double>(bits >> 11U) * 0x1p-53);
    }
    return u;
}

void print_place(const std::vector<double>& u, const PlaceRating& rating, double seconds) {
    for (const double x : u) std::printf("%.6f,", x);
    const auto number = [](const std::optional<double>& value) {
        value ? std::printf("%.6g,", *value) : std::printf(",");
    };
    for (const Measure& m : rating.measures) {
        number(m.value);
        number(m.error);
    }
    std::printf("%.3f,%s\n", seconds, rating.unusable.empty() ? "" : "unusable");
    std::fflush(stdout);
}

int run(const Options& options) {
    Problems problems;
    SearchQuestion question =
        ask_search(options.set, read_toml_text(options.set), options.words, problems);
    const int width = question.look.width;
    question.look = options.look;
    if (question.look.width == 0) question.look.width = width;
    const KeepParts parts(size_t{256} << 20U);
    const PlaceRater rater(question, problems);
    print_problems(problems);
    if (!problems.empty()) return 2;
    for (int i = options.first; i < options.first + options.places; ++i) {
        const size_t dimensions = question.space.dimensions();
        const auto u = options.at.size() == dimensions
                           ? options.at
                           : random_place(options.draw, static_cast<uint64_t>(i), dimensions);
        const double begin = processor_seconds();
        const PlaceRating rating =
            rater.rate(question.space.changes_at(u), {[] { return true; }, {}, {}});
        print_place(u, rating, processor_seconds() - begin);
    }
    return 0;
}

}  // namespace

}  // namespace dapple

int main(int argc, char** argv) {
    dapple::Options options;
    CLI::App app{"Rates random places of a search, as CSV."};
    app.add_option("SET", options.set)->required();
    app.add_option("--move", options.words.thing)->required();
    app.add_option("--within", options.words.within);
    app.add_option("--vary", options.words.vary);
    app.add_option("--want", options.words.wants)->required();
    options.look.width = 0;
    app.add_option("--width", options.look.width, "0: as a search takes it");
    app.add_option("--passes", options.look.passes);
    app.add_option("--footprint", options.look.footprint_px);
    app.add_option("--light-walks", options.look.light_walks_per_pixel);
    app.add_option("--seed", options.look.seed);
    app.add_option("--places", options.places);
    app.add_option("--first", options.first, "The number of the first place");
    app.add_option("--draw", options.draw, "Other numbers draw other places");
    app.add_option(
        "--at", options.at, "One place, 0 to 1 in each dimension, in place of random ones");
    CLI11_PARSE(app, argc, argv);
    try {
        return dapple::run(options);
    } catch (const std::exception& error) {
        std::cerr << "dapple_places: " << error.what() << '\n';
        return 2;
    }
}
