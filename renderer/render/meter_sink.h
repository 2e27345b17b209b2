// What light walks bring to meters; there is no frame.
#pragma once

#include "film/meter_film.h"
#include "transport/light_walk.h"

namespace dapple {

class MeterSink final : public LightSink {
  public:
    explicit MeterSink(MeterFilm& film) : film_(film) {}
    void add_splat(
        const Vec2&, const Footprint&, const SurfacePoint&, int, const Spectrum&) override {}
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        film_.add(meter, fixture, lux);
    }

  private:
    MeterFilm& film_;
};

}  // namespace dapple
