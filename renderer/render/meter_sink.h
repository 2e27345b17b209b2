// The sink of light walks when only the meters are read. Splats are dropped.
#pragma once

#include "film/meter_film.h"
#include "transport/light_sink.h"

namespace dapple {

class MeterSink final : public LightSink {
  public:
    explicit MeterSink(MeterFilm& film) : film_(film) {}
    void add_splat(std::span<const SplatPart>,
                   const Footprint&,
                   const SurfacePoint&,
                   int) override {}
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        film_.add(meter, fixture, lux);
    }

  private:
    MeterFilm& film_;
};

}  // namespace dapple
