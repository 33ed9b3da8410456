// sheet/tcs.hpp - does a food need control of time and temperature? Asked of pH and water activity by published tables.
//
// The interaction tables A and B of the US FDA Food Code, 1-201.10 (data/sheet/tcs.csv). Table A holds only for food
// that was heated and then packaged; all else is table B. Edges differ cell by cell and are kept exactly. The tables
// know neither ethanol nor layers nor raw animal food made acid. Called by rules.cpp.
#pragma once

namespace bloomset::sheet {

enum class TcsTable { heated_and_packaged, anything_else };  // A, B
enum class TcsClass {
  unknown,            // pH or water activity is not known, or lies outside 0..14 and 0..1: treated as needing control
  non_tcs,            // by these tables no control of time and temperature is asked for
  product_assessment  // control is asked for unless an assessment of the product says otherwise
};

/// The class of a food; both values are judged to a millionth. A value that is not a number answers `unknown`.
TcsClass tcs_class(double ph, double water_activity, TcsTable);

}  // namespace bloomset::sheet
