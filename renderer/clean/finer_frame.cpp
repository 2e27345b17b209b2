#include "clean/finer_frame.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "clean/seen_fit.h"
#include "clean/splines.h"
#include "clean/surface_light.h"

namespace dapple {

namespace {

constexpr int kGainRadius = 2;  // coarse px, about as far as most of a splat reaches
constexpr float kMostChange = 2;
constexpr float kNoGain = 1e-4F;  // rounding
constexpr float kAlike = 0.999F;  // likeness of the same surface

float luminance_of(const Rgb& c) {
    return 0.2126F * c.r + 0.7152F * c.g + 0.0722F * c.b;
}
std::vector<Rgb> rgb_of(const ColourPlanes& planes) {
    std::vector<Rgb> colours(planes[0].size());
    for (size_t i = 0; i < colours.size(); ++i) {
        colours[i] = {planes[0][i], planes[1][i], planes[2][i]};
    }
    return colours;
}

class FinerFrame {
  public:
    FinerFrame(const CoarseLight& light, const SeenPoints& seen, const FinePoints& fine)
        : light_(light),
          seen_(seen),
          fine_(fine),
          splines_(seen.width, seen.height, fine.step),
          on_surfaces_(seen.pixels.size()),
          by_pixel_(rgb_of(light.by_pixel)),
          held_(rgb_of(light.held)) {
        const std::vector<Rgb> on = rgb_of(light.on_surfaces);
        for (size_t i = 0; i < on.size(); ++i) {
            on_surfaces_[i] = glm::vec4(on[i], light.luminance_on_surfaces[i]);
        }
        count_pixels();
        find_even_pixels();
    }

    // In linear Rec.709.
    std::vector<Rgb> pixels() const;

  private:
    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(fine_.seen.width) +
               static_cast<size_t>(x);
    }
    bool shows_lamp(size_t j) const {
        return is_lamp_face(fine_.seen.pixels[j]) && fine_.blurred[j] == 0;
    }

    std::optional<Around> alike(size_t j, const Around& around) const;
    Rgb light_of(size_t j, const Around& around) const;
    Rgb on_surface(const SeenPoint& seen, const Around& around) const;
    Rgb by_pixel(const SeenPoint& seen, const Around& around) const;
    Rgb held_light(const Around& around) const;
    // The pixels whose light is compared: first those of one plane, else a bright wall would take
    // its light from the floor before it; then all.
    enum class Within { kPlane, kAll };
    Plane gains(const std::vector<Rgb>& light, Within within) const;
    float gain_of(size_t i, const Plane& present, const Plane& wanted, Within within) const;
    void multiply_alike(const Plane& gain, std::vector<Rgb>& light) const;
    void find_even_pixels();
    void count_pixels();
    void share_out_lamps(const std::vector<float>& faces);

    const CoarseLight& light_;
    const SeenPoints& seen_;
    const FinePoints& fine_;
    Splines splines_;
    std::vector<float> glass_;  // the share of each coarse pixel that is seen through glass
    // By coarse pixel, as in CoarseLight; the fourth is the luminance. `held_`: that no lamp's face
    // takes.
    std::vector<glm::vec4> on_surfaces_;
    std::vector<Rgb> by_pixel_, held_;
    std::vector<bool> is_face_;  // all of it shows a lamp's face
    std::vector<char> is_even_;  // 1: all around see the same surface
    std::vector<Rgb> lamps_;     // by coarse pixel: for each of its pixels that show a lamp's face
};

// The coarse pixels around that see the same surface as a fine one; nothing if none does.
std::optional<Around> FinerFrame::alike(size_t j, const Around& around) const {
    const SeenPoint& seen = fine_.seen.pixels[j];
    const bool is_even =
        is_even_[around.own] != 0 && likeness(seen, seen_.pixels[around.own]) > kAlike;
    if (is_even) return around;
    // At the rim of a lamp's face chance decides what the coarse pixel shows.
    if (shows_lamp(j)) {
        const auto whole = around.weighed([&](size_t i) { return is_face_[i] ? 1.0F : 0.0F; });
        if (whole) return whole;
    }
    return around.weighed([&](size_t i) { return fit_of(seen, seen_.pixels[i]); });
}

Rgb FinerFrame::light_of(size_t j, const Around& around) const {
    const SeenPoint& seen = fine_.seen.pixels[j];
    if (fine_.blurred[j] != 0) return around.mean(by_pixel_);
    if (const auto same = alike(j, around)) return on_surface(seen, *same);
    if (!is_plain_surface(seen)) return by_pixel(seen, around);
    const auto facing =
        around.weighed([&](size_t i) { return light_in_common(seen, seen_.pixels[i]); });
    return facing ? on_surface(seen, *facing) : by_pixel(seen, around);
}

// As the clean frame, the colours are scaled to the luminance.
Rgb FinerFrame::on_surface(const SeenPoint& seen, const Around& around) const {
    const std::array<float, 4> reflectance = SurfaceLight::reflectances(seen);
    const glm::vec4 light = around.mean(on_surfaces_);
    const Rgb colour = Rgb(light) * Rgb(reflectance[0], reflectance[1], reflectance[2]);
    const float wanted = light.w * reflectance[3];
    const float present = luminance_of(colour);
    return wanted > 0 && present > 0 ? colour * (wanted / present) : colour;
}

// Glass takes no light of what is beside it, as long as a coarse pixel around shows glass alone.
Rgb FinerFrame::by_pixel(const SeenPoint& seen, const Around& around) const {
    const bool is_glass = is_behind_glass(seen);
    const auto alone = around.weighed(
        [&](size_t i) { return glass_[i] == (is_glass ? 1.0F : 0.0F) ? 1.0F : 0.0F; });
    if (alone) return alone->mean(by_pixel_);
    const auto in_part =
        around.weighed([&](size_t i) { return is_glass ? glass_[i] : 1 - glass_[i]; });
    return (in_part ? *in_part : around).mean(by_pixel_);
}

// Interpolated among the pixels that hold light.
Rgb FinerFrame::held_light(const Around& around) const {
    const auto holding = around.weighed([&](size_t i) { return held_[i] == Rgb(0) ? 0.0F : 1.0F; });
    return holding ? holding->mean(held_) : Rgb(0);
}

std::vector<Rgb> FinerFrame::pixels() const {
    const int width = fine_.seen.width;
    std::vector<Rgb> light(fine_.seen.pixels.size());
    for_each_row(fine_.seen.height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            light[index(x, y)] = light_of(index(x, y), splines_.around(x, y));
        }
    });
    multiply_alike(gains(light, Within::kPlane), light);
    const Plane gain = gains(light, Within::kAll);
    for_each_row(fine_.seen.height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const Around around = splines_.around(x, y);
            Rgb& pixel = light[index(x, y)];
            pixel *= around.mean(gain);
            if (held_[around.own] != Rgb(0)) pixel += held_light(around);
            if (shows_lamp(index(x, y))) pixel += lamps_[around.own];
        }
    });
    return light;
}

// Each pixel by the gain of its own surface.
void FinerFrame::multiply_alike(const Plane& gain, std::vector<Rgb>& light) const {
    for_each_row(fine_.seen.height, [&](int y) {
        for (int x = 0; x < fine_.seen.width; ++x) {
            const Around around = splines_.around(x, y);
            const size_t j = index(x, y);
            light[j] *= alike(j, around).value_or(around).mean(gain);
        }
    });
}

// By coarse pixel, what brings the light around it to that of the coarse frame.
Plane FinerFrame::gains(const std::vector<Rgb>& light, Within within) const {
    const int step = fine_.step;
    const Plane present = make_plane(seen_.width, seen_.height, [&](size_t i) {
        const int x = static_cast<int>(i) % seen_.width * step;
        const int y = static_cast<int>(i) / seen_.width * step;
        float sum = 0;
        for (int v = 0; v < step; ++v) {
            for (int u = 0; u < step; ++u) sum += luminance_of(light[index(x + u, y + v)]);
        }
        return sum / static_cast<float>(step * step);
    });
    const Plane wanted = luminance_of(light_.by_pixel);
    return make_plane(
        seen_.width, seen_.height, [&](size_t i) { return gain_of(i, present, wanted, within); });
}

float FinerFrame::gain_of(size_t i,
                          const Plane& present,
                          const Plane& wanted,
                          Within within) const {
    const int x = static_cast<int>(i) % seen_.width;
    const int y = static_cast<int>(i) / seen_.width;
    float all_present = 0;
    float all_wanted = 0;
    for (int v = std::max(0, y - kGainRadius); v <= std::min(seen_.height - 1, y + kGainRadius);
         ++v) {
        for (int u = std::max(0, x - kGainRadius); u <= std::min(seen_.width - 1, x + kGainRadius);
             ++u) {
            const auto n = static_cast<size_t>(v * seen_.width + u);
            const bool is_next = std::abs(u - x) <= 1 && std::abs(v - y) <= 1;
            if (within == Within::kPlane && !is_next &&
                !is_on_one_plane(seen_.pixels[i], seen_.pixels[n]))
                continue;
            all_present += present[n];
            all_wanted += wanted[n];
        }
    }
    if (!(all_present > 0)) return 1;
    const float gain = std::clamp(all_wanted / all_present, 1 / kMostChange, kMostChange);
    return std::abs(gain - 1) < kNoGain ? 1.0F : gain;
}

void FinerFrame::find_even_pixels() {
    for (int y = 0; y < seen_.height; ++y) {
        for (int x = 0; x < seen_.width; ++x) {
            const Around around = splines_.around_middle(x, y);
            char is_even = 1;
            for (const size_t i : around.pixels) {
                if (!(likeness(seen_.pixels[around.own], seen_.pixels[i]) > kAlike)) is_even = 0;
            }
            is_even_.push_back(is_even);
        }
    }
}

void FinerFrame::count_pixels() {
    const float share = 1.0F / static_cast<float>(fine_.step * fine_.step);
    std::vector<int> counts(seen_.pixels.size(), 0);
    std::vector<float> faces(seen_.pixels.size(), 0);
    for (int y = 0; y < fine_.seen.height; ++y) {
        for (int x = 0; x < fine_.seen.width; ++x) {
            const auto i = static_cast<size_t>(y / fine_.step * seen_.width + x / fine_.step);
            if (shows_lamp(index(x, y))) faces[i] += 1;
            if (is_behind_glass(fine_.seen.pixels[index(x, y)])) ++counts[i];
        }
    }
    for (const int count : counts) {
        glass_.push_back(count == fine_.step * fine_.step ? 1.0F
                                                          : static_cast<float>(count) * share);
    }
    for (const float count : faces) {
        is_face_.push_back(count == static_cast<float>(fine_.step * fine_.step));
    }
    share_out_lamps(faces);
}

// `faces`: pixels of each coarse pixel that show a lamp's face.
void FinerFrame::share_out_lamps(const std::vector<float>& faces) {
    lamps_.assign(faces.size(), Rgb(0));
    for (size_t i = 0; i < faces.size(); ++i) {
        if (!(faces[i] > 0)) continue;
        lamps_[i] = held_[i] * (static_cast<float>(fine_.step * fine_.step) / faces[i]);
        held_[i] = Rgb(0);
    }
}

}  // namespace

CleanFrame make_finer(const CoarseLight& light, const SeenPoints& seen, const FinePoints& fine) {
    const std::vector<Rgb> pixels = FinerFrame(light, seen, fine).pixels();
    CleanFrame frame{fine.seen.width, fine.seen.height, {}, {}, {}};
    frame.total.resize(fine.seen.pixels.size());
    const DMat3 to_xyz = glm::inverse(linear_rec709_from_xyz());
    for_each_row(frame.height, [&](int y) {
        for (int x = 0; x < frame.width; ++x) {
            const auto j = static_cast<size_t>(y * frame.width + x);
            frame.total[j] = to_xyz * Xyz(pixels[j]);
        }
    });
    return frame;
}

void add_coarse(const std::vector<Xyz>& light, int step, CleanFrame& fine) {
    const Splines splines(fine.width / step, fine.height / step, step);
    for_each_row(fine.height, [&](int y) {
        for (int x = 0; x < fine.width; ++x) {
            const Around around = splines.around(x, y);
            Xyz& total = fine.total[static_cast<size_t>(y * fine.width + x)];
            for (size_t n = 0; n < around.count; ++n) {
                total += static_cast<double>(around.weights[n]) * light[around.pixels[n]];
            }
        }
    });
}

}  // namespace dapple
