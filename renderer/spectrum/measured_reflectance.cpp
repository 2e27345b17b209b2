#include "spectrum/measured_reflectance.h"

#include <cassert>
#include <map>

namespace dapple {

namespace {

Curve measured(const std::vector<double>& every_10_nm) {
    return Curve(every_10_nm, 390, 10);
}

const std::vector<double> kLightSkin{
    0.1877, 0.1880, 0.1853, 0.1795, 0.1889, 0.2104, 0.2346, 0.2519, 0.2697, 0.2801, 0.2947, 0.3093,
    0.3208, 0.3216, 0.3059, 0.2975, 0.3040, 0.3154, 0.3148, 0.3159, 0.3912, 0.4840, 0.5463, 0.5855,
    0.6103, 0.6296, 0.6446, 0.6565, 0.6692, 0.6829, 0.6955, 0.7046, 0.7105, 0.7117, 0.7087};
const std::vector<double> kMediumSkin{
    0.0969, 0.0974, 0.1000, 0.1020, 0.1092, 0.1199, 0.1364, 0.1473, 0.1589, 0.1671, 0.1772, 0.1866,
    0.1958, 0.2006, 0.1990, 0.1997, 0.2068, 0.2160, 0.2215, 0.2273, 0.2698, 0.3226, 0.3614, 0.3888,
    0.4092, 0.4263, 0.4415, 0.4547, 0.4692, 0.4847, 0.4992, 0.5113, 0.5215, 0.5287, 0.5322};
const std::vector<double> kDarkSkin{
    0.0265, 0.0293, 0.0301, 0.0292, 0.0298, 0.0328, 0.0344, 0.0349, 0.0357, 0.0362, 0.0371, 0.0374,
    0.0385, 0.0393, 0.0407, 0.0416, 0.0431, 0.0445, 0.0464, 0.0483, 0.0511, 0.0546, 0.0582, 0.0620,
    0.0661, 0.0707, 0.0756, 0.0806, 0.0866, 0.0930, 0.1001, 0.1076, 0.1152, 0.1234, 0.1317};
const std::vector<double> kDarkHair{
    0.0098, 0.0116, 0.0119, 0.0121, 0.0142, 0.0144, 0.0143, 0.0144, 0.0146, 0.0146, 0.0146, 0.0147,
    0.0147, 0.0149, 0.0149, 0.0151, 0.0152, 0.0153, 0.0155, 0.0156, 0.0158, 0.0157, 0.0155, 0.0156,
    0.0158, 0.0163, 0.0166, 0.0164, 0.0171, 0.0182, 0.0190, 0.0195, 0.0202, 0.0208, 0.0215};
const std::vector<double> kFairHair{
    0.0441, 0.0468, 0.0505, 0.0543, 0.0601, 0.0652, 0.0523, 0.0566, 0.0612, 0.0661, 0.0705, 0.0745,
    0.0799, 0.0846, 0.0896, 0.0948, 0.1002, 0.1051, 0.1111, 0.1165, 0.1223, 0.1284, 0.1345, 0.1404,
    0.1464, 0.1523, 0.1581, 0.1638, 0.1699, 0.1763, 0.1825, 0.1885, 0.1942, 0.2009, 0.2068};

}  // namespace

const Curve& measured_reflectance(MeasuredReflectance which) {
    static const std::map<MeasuredReflectance, Curve> curves{
        {MeasuredReflectance::kLightSkin, measured(kLightSkin)},
        {MeasuredReflectance::kMediumSkin, measured(kMediumSkin)},
        {MeasuredReflectance::kDarkSkin, measured(kDarkSkin)},
        {MeasuredReflectance::kDarkHair, measured(kDarkHair)},
        {MeasuredReflectance::kFairHair, measured(kFairHair)}};
    assert(which != MeasuredReflectance::kNone);
    return curves.at(which);
}

}  // namespace dapple
