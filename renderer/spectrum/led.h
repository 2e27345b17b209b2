// A bi-colour LED fixture: a warm and a cool channel, each a blue chip under a mix of two broad
// phosphors (Ohno 2005; Smet et al. 2011).
//
//   channel  S = a1 L1 + a2 L2 + a3 L3                                                   (E22)
//            each lobe L a Gaussian with its own width on either side
//   fixture  S = warm_share S_warm + cool_share S_cool      shares are parts of the lumens    (E23)
//
// The lobes are fits to the CIE LED illuminants B1 and B5 (CIE 015:2018). The rest is our own: a
// real fixture has fixed channels, whose mixtures are below the Planckian locus by up to 0.006 in
// Duv, and it corrects that with more channels. Here the phosphors of both channels are rebalanced
// together until the mixture is exactly the white of the set file.
#pragma once

#include "spectrum/curve.h"

namespace dapple {

struct LedChannels {
    Curve warm;  // one lumen each: 683 ∫ S V dλ = 1
    Curve cool;
    double warm_share = 0;  // of the lumens; the two sum to 1
    double cool_share = 0;
};

// Between these the channels keep their temperatures and the shares change. Outside, the nearer
// channel has the wanted white itself, and the share of the other one is 0.
inline constexpr double kWarmChannelCct = 2700.0;  // K
inline constexpr double kCoolChannelCct = 6500.0;

inline constexpr double kLedMinCct = 2000.0;
inline constexpr double kLedMaxCct = 10000.0;
inline constexpr double kLedMaxDuv = 0.006;

// The white is exact within these limits. Beyond them the solution may need a negative lobe. That
// lobe is left out, so that no power is negative, and the white is missed.
LedChannels make_led(double cct_k, double duv);

}  // namespace dapple
