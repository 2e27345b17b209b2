#include "render/film_sink.h"

#include <algorithm>
#include <array>

#include "render/splat_layout.h"

namespace dapple {

FilmSink::FilmSink(Film& film,
                   MeterFilm& meters,
                   const FixtureGroups& groups,
                   const FirstHits& first_hits,
                   const Lens& lens)
    : film_(film), meters_(meters), groups_(groups), seen_(first_hits, lens) {}

glm::ivec2 FilmSink::pixel_of(const SplatPart& part) const {
    return glm::min(glm::ivec2(part.raster), glm::ivec2(film_.width() - 1, film_.height() - 1));
}

void FilmSink::fetch_point(const SplatPart& part, int fixture) const {
    const glm::ivec2 at = pixel_of(part);
    film_.fetch({at.x, at.y}, groups_.first_of(fixture), groups_.count_of(fixture));
}

void FilmSink::add_point(const SplatPart& part, int fixture, int half) {
    const glm::ivec2 at = pixel_of(part);
    for (int g = groups_.first_of(fixture); g < groups_.first_of(fixture + 1); ++g) {
        film_.add(at.x, at.y, g, part.luminance, half);
    }
}

// Adds each splat to the film two splats later, when its prefetched memory has arrived.
class FilmSink::LateSplats final : public LightSink {
  public:
    LateSplats(FilmSink& sink, int half) : sink_(sink), half_(half) {}
    LateSplats(const LateSplats&) = delete;
    LateSplats& operator=(const LateSplats&) = delete;
    ~LateSplats() override {
        for (size_t i = next_ - waiting_; i < next_; ++i) layouts_[i % kLate].add_to(sink_.film_);
    }

    void add_splat(std::span<const SplatPart> parts,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture) override {
        const auto seen = [&](const SplatPart& part) { return sink_.is_in_frame(part.raster); };
        if (std::all_of(parts.begin(), parts.end(), seen)) {
            add_seen(parts, footprint, at, fixture);
            return;
        }
        // Some parts were dispersed out of the frame.
        std::array<SplatPart, kSpectrumSize> within;
        const auto end = std::copy_if(parts.begin(), parts.end(), within.begin(), seen);
        add_seen({within.begin(), end}, footprint, at, fixture);
    }
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        sink_.add_reading(meter, fixture, lux);
    }

  private:
    static constexpr size_t kLate = 2;

    // All parts in one layout if they fit, else each part in its own layout, else each as a point.
    void add_seen(std::span<const SplatPart> parts,
                  const Footprint& footprint,
                  const SurfacePoint& at,
                  int fixture) {
        const std::optional<SplatEllipse> ellipse = splat_ellipse(footprint, sink_.radii_);
        if (parts.size() > 1 && ellipse && lay_out(parts, *ellipse, at, fixture)) return;
        if (!ellipse) {
            for (const SplatPart& part : parts) sink_.fetch_point(part, fixture);
        }
        for (const SplatPart& part : parts) {
            if (!ellipse || !lay_out({&part, 1}, *ellipse, at, fixture)) {
                sink_.add_point(part, fixture, half_);
            }
        }
    }
    bool lay_out(std::span<const SplatPart> parts,
                 const SplatEllipse& ellipse,
                 const SurfacePoint& at,
                 int fixture) {
        const FixtureGroups& groups = sink_.groups_;
        const SplatLayout::Target target{
            at, groups.first_of(fixture), groups.count_of(fixture), half_};
        if (!free_layout().lay_out(parts, ellipse, target, sink_.seen_, sink_.film_)) return false;
        ++next_;
        ++waiting_;
        return true;
    }
    // A layout that can be overwritten. If none is free, the oldest splat is added to the film
    // first.
    SplatLayout& free_layout() {
        if (waiting_ == kLate) {
            layouts_[next_ % kLate].add_to(sink_.film_);
            --waiting_;
        }
        return layouts_[next_ % kLate];
    }

    FilmSink& sink_;
    int half_;
    std::array<SplatLayout, kLate> layouts_;
    size_t next_ = 0;     // number of splats laid out so far
    size_t waiting_ = 0;  // number of these that are not yet on the film
};

void FilmSink::add_splat(std::span<const SplatPart> parts,
                         const Footprint& footprint,
                         const SurfacePoint& at,
                         int fixture) {
    LateSplats(*this, 0).add_splat(parts, footprint, at, fixture);
}

std::unique_ptr<LightSink> FilmSink::make_buffered(int half) {
    return std::make_unique<LateSplats>(*this, half);
}

void FilmSink::add_glow(HazeGlow::Kind kind, int pixel, int fixture, const Spectrum& luminance) {
    for (int g = groups_.first_of(fixture); g < groups_.first_of(fixture + 1); ++g) {
        const std::optional<Xyz> xyz = film_.in_xyz(g, luminance);
        if (xyz) glow_->add(kind, pixel, g, *xyz);
    }
}

void FilmSink::add_pixel(int pixel, int fixture, const Spectrum& luminance) {
    const int x = pixel % film_.width();
    const int y = pixel / film_.width();
    for (int g = groups_.first_of(fixture); g < groups_.first_of(fixture + 1); ++g) {
        film_.add_alone(x, y, g, luminance);
    }
}

}  // namespace dapple
