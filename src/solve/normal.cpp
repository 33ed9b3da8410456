#include "solve/normal.hpp"

#include <array>
#include <cmath>

namespace bloomset::solve {
namespace {

// Coefficients as printed by Wichura 1988, highest power last.
constexpr std::array<double, 8> as241_a = {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
                                           4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3};
constexpr std::array<double, 8> as241_b = {1.0,
                                           4.2313330701600911252e1,
                                           6.8718700749205790830e2,
                                           5.3941960214247511077e3,
                                           2.1213794301586595867e4,
                                           3.9307895800092710610e4,
                                           2.8729085735721942674e4,
                                           5.2264952788528545610e3};
constexpr std::array<double, 8> as241_c = {1.42343711074968357734e0, 4.63033784615654529590e0,  5.76949722146069140550e0,  3.64784832476320460504e0,
                                           1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr std::array<double, 8> as241_d = {1.0,
                                           2.05319162663775882187e0,
                                           1.67638483018380384940e0,
                                           6.89767334985100004550e-1,
                                           1.48103976427480074590e-1,
                                           1.51986665636164571966e-2,
                                           5.47593808499534494600e-4,
                                           1.05075007164441684324e-9};
constexpr double split = 0.425, split_squared = 0.180625, tail_shift = 1.6;

double polynomial(const std::array<double, 8>& of, double x) {
  double sum = of[7];
  for (int i = 6; i >= 0; --i) sum = sum * x + of[static_cast<std::size_t>(i)];
  return sum;
}

}  // namespace

double normal_quantile(double share) {
  const double q = share - 0.5;
  if (std::abs(q) <= split) {
    const double r = split_squared - q * q;
    return q * polynomial(as241_a, r) / polynomial(as241_b, r);
  }
  const double r = std::sqrt(-std::log(q < 0.0 ? share : 1.0 - share)) - tail_shift;
  const double z = polynomial(as241_c, r) / polynomial(as241_d, r);
  return q < 0.0 ? -z : z;
}

}  // namespace bloomset::solve
