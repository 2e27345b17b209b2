// Student's t: how wide an interval must be if its standard error is itself estimated from few
// samples.
//
//   P(|T| ≤ t) = A(t|ν),  θ = arctan(t/√ν)                                                 (E113)
//   A = (2/π) (θ + sinθ (cosθ + 2/3 cos³θ + … + (2·4…(ν-3))/(3·5…(ν-2)) cos^(ν-2)θ)),  ν odd; ν =
//   1:
//       2θ/π
//   A = sinθ (1 + 1/2 cos²θ + (1·3)/(2·4) cos⁴θ + … + (1·3…(ν-3))/(2·4…(ν-2)) cos^(ν-2)θ),  ν even
// ν degrees of freedom: one less than the samples whose mean is meant.
// Source: Student (Gosset) 1908; the sums are 26.7.3 and 26.7.4 of Abramowitz and Stegun 1964.
#pragma once

namespace dapple {

// The t for which A(t|ν) is `share`, from 0 to below 1. More than 1000 degrees count as 1000, which
// is the Gaussian within 0.3 %.
double student_t(double share, int freedom);

}  // namespace dapple
