#include "clean/finer_frame.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "clean/surface_light.h"

namespace dapple {

namespace {

constexpr int32_t kBehindGlass = 0x40000000;  // surfaces from here on (find_seen_points.h)
constexpr float kWhite = 0.99F;               // reflectance; what is brighter is glass

constexpr int kGainRadius = 3;  // coarse px, about as far as a splat reaches
constexpr float kMostGain = 2;
constexpr float kNoGain = 1e-4F;  // rounding

float luminance_of(const Rgb& c) {
    return 0.2126F * c.r + 0.7152F * c.g + 0.0722F * c.b;
}
bool is_behind_glass(const SeenPoint& seen) {
    return seen.surface >= kBehindGlass;
}
bool is_lamp_face(const SeenPoint& seen) {
    return seen.surface < 0 && seen.footprint_m > 0;
}
// Its light is that on it times its reflectance.
bool is_plain_surface(const SeenPoint& seen) {
    return seen.surface >= 0 && !is_behind_glass(seen) &&
           std::min({seen.albedo.r, seen.albedo.g, seen.albedo.b}) < kWhite;
}

float fit_of(const SeenPoint& a, const SeenPoint& b) {
    if (a.surface >= 0) return likeness(a, b);
    return b.surface < 0 && is_lamp_face(a) == is_lamp_face(b) ? 1.0F : 0.0F;
}

// Of surfaces that are not alike.
float light_in_common(const SeenPoint& a, const SeenPoint& b) {
    if (!is_plain_surface(b)) return 0;
    const float facing = std::max(0.0F, glm::dot(a.normal, b.normal));
    const Vec3 between = b.position - a.position;
    return facing * facing * square(b.footprint_m) /
           (square(b.footprint_m) + glm::dot(between, between));
}

// Weights of the three coarse pixels around a place in the middle one, -0.5 to 0.5.
std::array<float, 3> spline_weights(float place) {
    return {0.5F * square(0.5F - place), 0.75F - square(place), 0.5F * square(0.5F + place)};
}

// Weights of the 3 × 3 coarse pixels around a fine one.
struct Around {
    std::array<size_t, 9> pixels{};
    std::array<float, 9> weights{};
    size_t count = 0;
    size_t own = 0;  // the coarse pixel that contains it

    void add(size_t pixel, float weight) {
        pixels[count] = pixel;
        weights[count++] = weight;
    }
    // The same with other weights; nothing if all are 0.
    template <class WeightOf>
    std::optional<Around> weighed(const WeightOf& weight_of) const {
        Around result;
        result.own = own;
        float sum = 0;
        for (size_t n = 0; n < count; ++n) {
            const float weight = weights[n] * weight_of(pixels[n]);
            if (!(weight > 0)) continue;
            result.add(pixels[n], weight);
            sum += weight;
        }
        if (!(sum > 0)) return std::nullopt;
        for (size_t n = 0; n < result.count; ++n) result.weights[n] /= sum;
        return result;
    }
    // Equal values stay as they are.
    float mean(const Plane& values) const {
        const float first = values[pixels[0]];
        float sum = 0;
        for (size_t n = 1; n < count; ++n) sum += weights[n] * (values[pixels[n]] - first);
        return first + sum;
    }
};

// The coarse pixels around each fine one.
class Splines {
  public:
    Splines(int width, int height, int step) : width_(width), height_(height), step_(step) {
        for (int i = 0; i < step; ++i) {
            const float place = (static_cast<float>(i) + 0.5F) / static_cast<float>(step) - 0.5F;
            weights_.push_back(spline_weights(place));
        }
    }
    Around around(int x, int y) const;

  private:
    int width_, height_;  // of the coarse frame
    int step_;
    std::vector<std::array<float, 3>> weights_;
};

class FinerFrame {
  public:
    FinerFrame(const CoarseLight& light, const SeenPoints& seen, const FinePoints& fine)
        : light_(light),
          seen_(seen),
          fine_(fine),
          splines_(seen.width, seen.height, fine.step),
          held_(light.held) {
        share_out_lamps();
    }

    // In linear Rec.709.
    std::vector<Rgb> pixels() const;

  private:
    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(fine_.seen.width) +
               static_cast<size_t>(x);
    }
    static Rgb by_channel(const ColourPlanes& planes, const Around& around) {
        return {around.mean(planes[0]), around.mean(planes[1]), around.mean(planes[2])};
    }
    bool shows_lamp(size_t j) const {
        return is_lamp_face(fine_.seen.pixels[j]) && fine_.blurred[j] == 0;
    }

    Rgb light_of(size_t j, const Around& around) const;
    Rgb on_surface(const SeenPoint& seen, const Around& around) const;
    Rgb by_pixel(const SeenPoint& seen, const Around& around) const;
    Plane gains(const std::vector<Rgb>& light) const;
    void share_out_lamps();

    const CoarseLight& light_;
    const SeenPoints& seen_;
    const FinePoints& fine_;
    Splines splines_;
    ColourPlanes held_;       // that no lamp's face takes
    std::vector<Rgb> lamps_;  // by coarse pixel: for each of its pixels that show a lamp's face
};

Around Splines::around(int x, int y) const {
    const std::array<float, 3>& across = weights_[static_cast<size_t>(x % step_)];
    const std::array<float, 3>& down = weights_[static_cast<size_t>(y % step_)];
    Around all;
    all.own = static_cast<size_t>(y / step_ * width_ + x / step_);
    for (int v = 0; v < 3; ++v) {
        const int row = std::clamp(y / step_ + v - 1, 0, height_ - 1);
        for (int u = 0; u < 3; ++u) {
            const int column = std::clamp(x / step_ + u - 1, 0, width_ - 1);
            all.add(static_cast<size_t>(row * width_ + column),
                    across[static_cast<size_t>(u)] * down[static_cast<size_t>(v)]);
        }
    }
    return all;
}

Rgb FinerFrame::light_of(size_t j, const Around& around) const {
    const SeenPoint& seen = fine_.seen.pixels[j];
    if (fine_.blurred[j] != 0) return by_channel(light_.by_pixel, around);
    const auto alike = around.weighed([&](size_t i) { return fit_of(seen, seen_.pixels[i]); });
    if (alike) return on_surface(seen, *alike);
    if (!is_plain_surface(seen)) return by_pixel(seen, around);
    const auto facing =
        around.weighed([&](size_t i) { return light_in_common(seen, seen_.pixels[i]); });
    return facing ? on_surface(seen, *facing) : by_pixel(seen, around);
}

// As the clean frame, the colours are scaled to the luminance.
Rgb FinerFrame::on_surface(const SeenPoint& seen, const Around& around) const {
    const std::array<float, 4> reflectance = SurfaceLight::reflectances(seen);
    Rgb colour = by_channel(light_.on_surfaces, around);
    for (int c = 0; c < 3; ++c) colour[c] *= reflectance[static_cast<size_t>(c)];
    const float wanted = reflectance[3] * around.mean(light_.luminance_on_surfaces);
    const float present = luminance_of(colour);
    return wanted > 0 && present > 0 ? colour * (wanted / present) : colour;
}

// Glass takes no light of what is beside it, as long as there is other glass.
Rgb FinerFrame::by_pixel(const SeenPoint& seen, const Around& around) const {
    const auto same_kind = around.weighed([&](size_t i) {
        return is_behind_glass(seen) == is_behind_glass(seen_.pixels[i]) ? 1.0F : 0.0F;
    });
    return by_channel(light_.by_pixel, same_kind ? *same_kind : around);
}

std::vector<Rgb> FinerFrame::pixels() const {
    const int width = fine_.seen.width;
    std::vector<Rgb> light(fine_.seen.pixels.size());
    for_each_row(fine_.seen.height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            light[index(x, y)] = light_of(index(x, y), splines_.around(x, y));
        }
    });
    const Plane gain = gains(light);
    for_each_row(fine_.seen.height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const Around around = splines_.around(x, y);
            Rgb& pixel = light[index(x, y)];
            pixel = pixel * around.mean(gain) + by_channel(held_, around);
            if (shows_lamp(index(x, y))) pixel += lamps_[around.own];
        }
    });
    return light;
}

// By coarse pixel, what brings the light around it to that of the coarse frame.
Plane FinerFrame::gains(const std::vector<Rgb>& light) const {
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
    const Plane around = box_sums(present, kGainRadius);
    const Plane wanted = box_sums(luminance_of(light_.by_pixel), kGainRadius);
    return make_plane(seen_.width, seen_.height, [&](size_t i) {
        if (!(around[i] > 0)) return 1.0F;
        const float gain = std::clamp(wanted[i] / around[i], 1 / kMostGain, kMostGain);
        return std::abs(gain - 1) < kNoGain ? 1.0F : gain;
    });
}

void FinerFrame::share_out_lamps() {
    std::vector<float> faces(seen_.pixels.size(), 0);
    for (int y = 0; y < fine_.seen.height; ++y) {
        for (int x = 0; x < fine_.seen.width; ++x) {
            const int i = y / fine_.step * seen_.width + x / fine_.step;
            if (shows_lamp(index(x, y))) faces[static_cast<size_t>(i)] += 1;
        }
    }
    lamps_.assign(faces.size(), Rgb(0));
    for (size_t i = 0; i < faces.size(); ++i) {
        if (!(faces[i] > 0)) continue;
        for (int c = 0; c < 3; ++c) {
            float& held = held_[static_cast<size_t>(c)][i];
            lamps_[i][c] = held * static_cast<float>(fine_.step * fine_.step) / faces[i];
            held = 0;
        }
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
