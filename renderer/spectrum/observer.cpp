#include "spectrum/observer.h"

namespace dapple {

Xyz integrate_xyz(const Curve& spectrum) {
    const Observer& o = cie_1931();
    return Xyz(integrate(spectrum, o.x), integrate(spectrum, o.y), integrate(spectrum, o.z));
}

double luminous_flux(const Curve& spectrum) {
    return kLuminousEfficacy * integrate(spectrum, cie_1931().y);
}

}  // namespace dapple
