// How the white is computed; all steps are linear except for one unknown:
// 1. Three lobes make any white inside their triangle: their amounts solve a 3 × 3 system.
// 2. Both channels have the same Duv d. The wanted white is on the line from warm to cool for one
//    d, found by bisection. d is the wanted Duv plus 0 at 2700 and 6500 K, plus 0.0067 at 4000 K.
// 3. The luminous shares follow: the mixture's XYZ is the weighted mean of the channels' XYZ at
//    Y = 1.
#include "spectrum/led.h"

#include <algorithm>
#include <cmath>

#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"
#include "spectrum/source_spectrum.h"

namespace dapple {

namespace {

struct Lobe {
    double peak;         // nm
    double sigma_below;  // nm, towards shorter wavelengths
    double sigma_above;
};

Curve lobe_curve(const Lobe& lobe) {
    return Curve([&](double nm) {
        const double sigma = nm < lobe.peak ? lobe.sigma_below : lobe.sigma_above;
        const double t = (nm - lobe.peak) / sigma;
        return std::exp(-0.5 * t * t);
    });
}

// A chip and two phosphors, with the matrix from their amounts to XYZ.
struct Channel {
    Curve lobes[3];
    DMat3 to_xyz;

    Channel(const Lobe& chip, const Lobe& green, const Lobe& red)
        : lobes{lobe_curve(chip), lobe_curve(green), lobe_curve(red)},
          to_xyz(integrate_xyz(lobes[0]), integrate_xyz(lobes[1]), integrate_xyz(lobes[2])) {}

    // One lumen of this channel at the chromaticity `white`.
    Curve curve(Xy white) const {
        const Xyz amounts = glm::max(Xyz(0.0), glm::inverse(to_xyz) * xyz_of(white));
        return normalised_to_lumen(lobes[0] * amounts.x + lobes[1] * amounts.y +
                                   lobes[2] * amounts.z);
    }
};

// Least-squares fits to CIE LED-B1 and LED-B5 (rms 1.1 % and 1.5 % of the peak), with lobes wide
// enough apart that no amount turns negative over 2000 … 10000 K and |Duv| up to 0.006.
const Channel& warm_channel() {
    static const Channel channel({450.8, 9.9, 12.0}, {550.0, 48.0, 85.0}, {609.0, 37.0, 52.0});
    return channel;
}
const Channel& cool_channel() {
    static const Channel channel({451.7, 10.9, 11.1}, {553.0, 49.0, 49.0}, {624.0, 27.0, 60.0});
    return channel;
}

struct Ends {
    Xyz warm, cool;
};

Ends channel_ends(double duv) {
    static const DuvLine warm(kWarmChannelCct);
    static const DuvLine cool(kCoolChannelCct);
    return {xyz_of(warm.at(duv)), xyz_of(cool.at(duv))};
}

// Positive if the chord between channels of this Duv passes above `white` in (x, y).
double height_of_chord(double duv, Xy white) {
    const Ends ends = channel_ends(duv);
    const Xy w = xy_of(ends.warm);
    const Xy c = xy_of(ends.cool);
    return (w.y - c.y) * (white.x - c.x) - (w.x - c.x) * (white.y - c.y);
}

double common_duv(double wanted_duv, Xy white) {
    double low = wanted_duv - 0.002;  // the chord is below the locus, so d is at least `wanted_duv`
    double high = wanted_duv + 0.012;
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        (height_of_chord(middle, white) < 0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

LedChannels make_led(double cct_k, double duv) {
    const double warm_cct = std::min(cct_k, kWarmChannelCct);
    const double cool_cct = std::max(cct_k, kCoolChannelCct);
    const Xy white = xy_from_cct_duv(cct_k, duv);
    const bool mixed = cct_k > kWarmChannelCct && cct_k < kCoolChannelCct;
    const double d = mixed ? common_duv(duv, white) : duv;

    LedChannels led;
    led.warm = warm_channel().curve(xy_from_cct_duv(warm_cct, d));
    led.cool = cool_channel().curve(xy_from_cct_duv(cool_cct, d));
    if (!mixed) {
        led.cool_share = cct_k >= kCoolChannelCct ? 1.0 : 0.0;
    } else {
        const Ends ends = channel_ends(d);
        const Xyz across = ends.cool - ends.warm;
        led.cool_share = glm::dot(xyz_of(white) - ends.warm, across) / glm::dot(across, across);
    }
    led.warm_share = 1.0 - led.cool_share;
    return led;
}

}  // namespace dapple
