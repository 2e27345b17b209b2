// The reflectance basis of Mallett and Yuksel 2019 for linear Rec.709: red, green, blue every 5 nm
// from 380 to 780 nm, to eight decimals. Source: supplement of doi 10.2312/SR.20191216.
#pragma once

namespace dapple {

inline constexpr double kMallettYukselStep = 5.0;  // nm
inline constexpr int kMallettYukselRows = 81;
extern const double kMallettYuksel2019[kMallettYukselRows][3];

}  // namespace dapple
