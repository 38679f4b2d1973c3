#include "lodeway/learn/estimate/distributions.hpp"

#include <cassert>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace lodeway::learn {

namespace {
// The core throws nothing: what is out of reach comes back as the end of the range.
using NoThrow = boost::math::policies::policy<
    boost::math::policies::overflow_error<boost::math::policies::ignore_error>,
    boost::math::policies::evaluation_error<boost::math::policies::ignore_error>,
    boost::math::policies::domain_error<boost::math::policies::ignore_error>,
    boost::math::policies::pole_error<boost::math::policies::ignore_error>>;
}  // namespace

double beta_quantile(double a, double b, double p) {
  assert(a > 0 && b > 0 && p > 0 && p < 1);
  return boost::math::quantile(boost::math::beta_distribution<double, NoThrow>(a, b), p);
}

double gamma_quantile(double shape, double rate, double p) {
  assert(shape > 0 && rate > 0 && p > 0 && p < 1);
  return boost::math::quantile(boost::math::gamma_distribution<double, NoThrow>(shape, 1 / rate),
                               p);
}

double chi_squared_quantile(double degrees, double p) {
  assert(degrees > 0 && p > 0 && p < 1);
  return boost::math::quantile(boost::math::chi_squared_distribution<double, NoThrow>(degrees), p);
}

double student_cdf(double degrees, double t) {
  assert(degrees > 0);
  return boost::math::cdf(boost::math::students_t_distribution<double, NoThrow>(degrees), t);
}

double student_quantile(double degrees, double p) {
  assert(degrees > 0 && p > 0 && p < 1);
  return boost::math::quantile(boost::math::students_t_distribution<double, NoThrow>(degrees), p);
}

}  // namespace lodeway::learn
