#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "lenses/ghost_canvas.h"

namespace dapple {

namespace {

constexpr int kMostPointsAcross = 40;  // of a cell; a larger one is drawn with gaps filled by blur
constexpr double kPointsPerPixel = 1.3;
constexpr double kOutside = 1.5;  // a cell whose corners are all beyond this part of a stop is dark

constexpr int kFar_px = 1 << 20;

// A ray of the sheet as it is drawn.
struct Corner {
    bool misses = true;
    DVec2 at{0};  // px
    std::array<DVec2, kMostStopCrossings> stop{};
    double rim = 0;
    GroupXyz light{};
};

GroupXyz light_of(const SheetDrawing& d,
                  const Spectrum& passed,
                  double scale,
                  size_t first_band,
                  size_t last_band) {
    GroupXyz light{};
    for (size_t g = 0; g < d.colour.groups; ++g) {
        Xyz sum(0);
        for (size_t j = first_band; j < last_band; ++j) {
            const auto k = static_cast<int>(j);
            sum += static_cast<double>(passed[k] / d.lens.axis_transmittance()[k]) *
                   d.colour.bands[g][j];
        }
        light[g] = glm::vec3(scale * sum);
    }
    return light;
}

class SheetPainter {
  public:
    SheetPainter(const SheetDrawing& drawing, const GhostSheet& sheet, GhostCanvas& canvas)
        : drawing_(drawing), canvas_(canvas), size_(sheet.size) {}

    void place(const GhostSheet& sheet, size_t first_band, size_t last_band) {
        const PixelGrid& p = canvas_.pixels;
        const double per_mm = 1 / p.pitch;
        const double c = std::cos(drawing_.azimuth);
        const double s = std::sin(drawing_.azimuth);
        const double n = drawing_.lens.working_f_number();
        const double pixel_area = p.pitch * p.pitch;
        // Light of a ray's patch, lm, to cd/m² of one pixel.
        const double scale =
            4 * n * n / kPi * drawing_.lux * sheet.cosine * sheet.patch / pixel_area;
        for (const LensArrival& ray : sheet.rays) {
            Corner corner;
            corner.misses = ray.misses;
            if (!ray.misses) {
                const DVec2 film(c * ray.film.x - s * ray.film.y, s * ray.film.x + c * ray.film.y);
                corner.at =
                    DVec2(0.5 * p.width - per_mm * film.x, 0.5 * p.height + per_mm * film.y);
                corner.stop = ray.stop;
                corner.rim = ray.rim;
                corner.light = light_of(drawing_, ray.passed, scale, first_band, last_band);
            }
            corners_.push_back(corner);
        }
    }

    // An upper estimate of the brightest place: all light over the area of what it covers.
    double level() const {
        double sum = 0;
        DVec2 low(1e9);
        DVec2 high(-1e9);
        for (const Corner& c : corners_) {
            if (c.misses || c.rim > 1 || is_dark(c)) continue;
            for (size_t g = 0; g < drawing_.colour.groups; ++g)
                sum += static_cast<double>(c.light[g].y);
            low = glm::min(low, c.at);
            high = glm::max(high, c.at);
        }
        const DVec2 extent = glm::max(high - low, DVec2(1));
        return 4 * sum / (extent.x * extent.y);
    }

    DrawnGhost paint() {
        for (int j = 0; j + 1 < size_; ++j) {
            for (int i = 0; i + 1 < size_; ++i) paint_cell(i, j);
        }
        canvas_.use(used_);
        DrawnGhost drawn;
        drawn.light = weight_;
        if (!(weight_ > 0)) return drawn;
        drawn.middle = moment_ / weight_;
        const double spread2 =
            std::max(0.0, square_sum_ / weight_ - glm::dot(drawn.middle, drawn.middle));
        drawn.diameter = 2 * std::sqrt(2 * spread2);
        return drawn;
    }

  private:
    const Corner& corner(int i, int j) const {
        return corners_[static_cast<size_t>(j * size_ + i)];
    }
    bool is_dark(const Corner& c) const {
        for (int k = 0; k < drawing_.route.stop_crossings; ++k) {
            const DVec2& at = c.stop[static_cast<size_t>(k)];
            if (!drawing_.lens.stop().passes(at.x, at.y)) return true;
        }
        return false;
    }
    // Whether the four corners are all far beyond the stop or the same rim, or out of the picture.
    bool is_nothing(const std::array<const Corner*, 4>& c) const {
        const auto all = [&](const auto& test) {
            return std::all_of(c.begin(), c.end(), [&](const Corner* k) { return test(*k); });
        };
        if (all([](const Corner& k) { return k.rim > 1; })) return true;
        for (int k = 0; k < drawing_.route.stop_crossings; ++k) {
            const double limit = kOutside * drawing_.lens.stop().radius;
            if (all([&](const Corner& x) {
                    return glm::length(x.stop[static_cast<size_t>(k)]) > limit;
                })) {
                return true;
            }
        }
        const PixelGrid& p = canvas_.pixels;
        return all([](const Corner& k) { return k.at.x < -1; }) ||
               all([](const Corner& k) { return k.at.y < -1; }) ||
               all([&](const Corner& k) { return k.at.x > p.width + 1; }) ||
               all([&](const Corner& k) { return k.at.y > p.height + 1; });
    }

    void paint_cell(int i, int j) {
        const std::array<const Corner*, 4> c{
            &corner(i, j), &corner(i + 1, j), &corner(i, j + 1), &corner(i + 1, j + 1)};
        if (std::any_of(c.begin(), c.end(), [](const Corner* k) { return k->misses; })) return;
        if (is_nothing(c)) return;
        const double wide =
            std::max(glm::length(c[1]->at - c[0]->at), glm::length(c[3]->at - c[2]->at));
        const double high =
            std::max(glm::length(c[2]->at - c[0]->at), glm::length(c[3]->at - c[1]->at));
        const auto points = [](double length) {
            return std::clamp(
                static_cast<int>(std::ceil(kPointsPerPixel * length)), 2, kMostPointsAcross);
        };
        const int nu = points(wide);
        const int nv = points(high);
        for (int b = 0; b < nv; ++b) {
            for (int a = 0; a < nu; ++a) {
                paint_point(c, (a + 0.5) / nu, (b + 0.5) / nv, 1.0 / (nu * nv));
            }
        }
    }

    void paint_point(const std::array<const Corner*, 4>& c, double u, double v, double part) {
        const std::array<double, 4> w{(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v};
        Corner point;
        for (size_t k = 0; k < 4; ++k) {
            point.at += w[k] * c[k]->at;
            point.rim += w[k] * c[k]->rim;
            for (size_t s = 0; s < kMostStopCrossings; ++s) point.stop[s] += w[k] * c[k]->stop[s];
        }
        if (point.rim > 1 || is_dark(point)) return;
        for (size_t k = 0; k < 4; ++k) {
            for (size_t g = 0; g < drawing_.colour.groups; ++g) {
                point.light[g] += static_cast<float>(part * w[k]) * c[k]->light[g];
            }
        }
        splat(point);
    }

    void splat(const Corner& point) {
        if (!(std::abs(point.at.x) < kFar_px && std::abs(point.at.y) < kFar_px)) return;
        const double x = point.at.x - 0.5;
        const double y = point.at.y - 0.5;
        const double fx = std::floor(x);
        const double fy = std::floor(y);
        const auto left = static_cast<int>(fx);
        const auto top = static_cast<int>(fy);
        used_ = {std::min(used_.x0, left),
                 std::min(used_.y0, top),
                 std::max(used_.x1, left + 2),
                 std::max(used_.y1, top + 2)};
        for (int k = 0; k < 4; ++k) {
            const int px = left + (k & 1);
            const int py = top + (k >> 1);
            if (px < 0 || py < 0 || px >= canvas_.pixels.width || py >= canvas_.pixels.height)
                continue;
            const double weight =
                ((k & 1) ? x - fx : 1 - x + fx) * ((k >> 1) ? y - fy : 1 - y + fy);
            GroupXyz& pixel = canvas_.values[static_cast<size_t>(py * canvas_.pixels.width + px)];
            double light = 0;
            for (size_t g = 0; g < drawing_.colour.groups; ++g) {
                pixel[g] += static_cast<float>(weight) * point.light[g];
                light += weight * static_cast<double>(point.light[g].y);
            }
            const DVec2 at(px + 0.5, py + 0.5);
            weight_ += light;
            moment_ += light * at;
            square_sum_ += light * glm::dot(at, at);
        }
    }

    const SheetDrawing& drawing_;
    GhostCanvas& canvas_;
    int size_;
    std::vector<Corner> corners_;
    CanvasRect used_{kFar_px, kFar_px, -kFar_px, -kFar_px};
    double weight_ = 0;
    DVec2 moment_{0};
    double square_sum_ = 0;
};

}  // namespace

DrawnGhost draw_sheet(const SheetDrawing& drawing,
                      const GhostSheet& sheet,
                      size_t first_band,
                      size_t last_band,
                      GhostCanvas& canvas) {
    if (sheet.size < 2) return {};
    SheetPainter painter(drawing, sheet, canvas);
    painter.place(sheet, first_band, last_band);
    if (painter.level() < drawing.least) return {};
    return painter.paint();
}

}  // namespace dapple
