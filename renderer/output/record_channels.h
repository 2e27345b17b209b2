// The channels of the EXR and where a FilmRecord keeps each of them: one list for writing and
// reading. Private to this folder.
#pragma once

#include <string>
#include <type_traits>

#include "develop/film_record.h"
#include "output/round_layers.h"

namespace dapple {

// Where a channel's values are: one every `step`, either floats or, for surfaces, integers.
template <class Float, class Integer>
struct ChannelPlace {
    std::string name;
    Float* floats = nullptr;
    Integer* integers = nullptr;
    int step = 1;
    bool is_half = false;  // 16 bits in the file
};

// Calls visit(ChannelPlace) for every channel that the record has, in the file's order. `Record` is
// FilmRecord, or const for reading from it.
template <class Record, class Visit>
class ChannelVisits {
    static constexpr bool kIsConst = std::is_const_v<Record>;
    using Float = std::conditional_t<kIsConst, const float, float>;
    using Integer = std::conditional_t<kIsConst, const int32_t, int32_t>;
    using Found = ChannelPlace<Float, Integer>;

  public:
    ChannelVisits(Record& record, const Visit& visit) : record_(record), visit_(visit) {}

    void all() {
        add_rgb("", record_.light);
        for (auto& layer : record_.layers) add_layer(layer.layer + ".", layer.light);
        add("luminance.Y", record_.luminance);
        add("luminance.stderr", record_.luminance_stderr);
        add("noise.Y", record_.noise);
        add_rgb("clean.", record_.clean);
        add("clean.stderr", record_.clean_stderr);
        for (auto& layer : record_.layers) add_layer("clean." + layer.layer + ".", layer.clean);
        add_rgb("glare.", record_.glare);
        for (auto& layer : record_.layers) add_layer("glare." + layer.layer + ".", layer.glare);
        add_first_hits();
        add("mask.in_frame", record_.in_frame.mask);
    }

  private:
    void add_first_hits() {
        auto& hits = record_.first_hits;
        add_rgb("albedo.", hits.albedo);
        add_three("normal.", "XYZ", hits.normal, false);
        add("depth.Z", hits.depth);
        if (!hits.surface.empty()) visit_(Found{"surface.id", nullptr, hits.surface.data()});
        add("surface.pixel_m", hits.footprint_m);
        if (!hits.lamp.empty()) visit_(Found{"surface.lamp", nullptr, hits.lamp.data()});
    }
    template <class Values>
    void add(const std::string& name, Values& values) {
        if (!values.empty()) visit_(Found{name, values.data(), nullptr});
    }
    // A layer that loses nothing by it has 16 bits. A reader takes what the file has.
    template <class Values>
    void add_layer(const std::string& prefix, Values& values) {
        bool is_half = false;
        if constexpr (kIsConst) is_half = are_halves(values);
        add_rgb(prefix, values, is_half);
    }
    template <class Values>
    void add_rgb(const std::string& prefix, Values& values, bool is_half = false) {
        add_three(prefix, "RGB", values, is_half);
    }
    template <class Values>
    void add_three(const std::string& prefix,
                   const std::string& letters,
                   Values& values,
                   bool is_half) {
        if (values.empty()) return;
        for (size_t c = 0; c < 3; ++c) {
            Float* first = &values.front()[static_cast<int>(c)];
            visit_(Found{prefix + letters[c], first, nullptr, 3, is_half});
        }
    }

    Record& record_;
    const Visit& visit_;
};

template <class Record, class Visit>
void visit_channels(Record& record, const Visit& visit) {
    ChannelVisits<Record, Visit>(record, visit).all();
}

}  // namespace dapple
