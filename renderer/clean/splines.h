// Weights of the 3 × 3 pixels of a coarse frame around a pixel of a finer one: quadratic B-splines.
// Private to this folder.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace dapple {

struct Around {
    std::array<size_t, 9> pixels{};
    std::array<float, 9> weights{};  // sum 1
    size_t count = 0;
    size_t own = 0;  // the coarse pixel that contains the fine one

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
    // The mean of numbers or vectors by coarse pixel. Equal values stay as they are.
    template <class Values>
    auto mean(const Values& values) const {
        const auto first = values[pixels[0]];
        auto sum = first - first;
        for (size_t n = 1; n < count; ++n) sum += weights[n] * (values[pixels[n]] - first);
        return first + sum;
    }
};

class Splines {
  public:
    // `width`, `height`: of the coarse frame; `step`: fine pixels across a coarse one.
    Splines(int width, int height, int step);
    // Around the fine pixel (x, y).
    Around around(int x, int y) const;
    // Around the middle of the coarse pixel (x, y).
    Around around_middle(int x, int y) const {
        return around(x * step_ + step_ / 2, y * step_ + step_ / 2);
    }

  private:
    int width_, height_;
    int step_;
    std::vector<std::array<float, 3>> weights_;  // by place in the coarse pixel
};

}  // namespace dapple
