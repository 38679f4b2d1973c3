#include "lodeway/fells/design.hpp"

#include <array>

namespace lodeway::fells::design {

const std::vector<SkeletonLine>& valleys() {
  static const std::vector<SkeletonLine> lines{
      // The road's valley: west from the pass, and the short one east of it.
      {{10.4, 4.85, 325},
       {9.0, 4.7, 268},
       {7.5, 4.5, 233},
       {5.5, 4.3, 205},
       {3.8, 4.3, 178},
       {2.0, 4.2, 150},
       {0.6, 3.9, 132},
       {-0.8, 3.7, 122}},
      {{11.2, 4.9, 325}, {12.8, 5.1, 270}},
      {{3.95, 5.1, 330}, {3.85, 4.7, 235}, {3.8, 4.3, 178}},
      // Thrael valley.
      {{4.5, 7.05, 565},
       {4.15, 6.85, 475},
       {3.75, 6.5, 398},
       {3.3, 6.1, 385},
       {2.5, 5.95, 330},
       {1.9, 5.5, 260},
       {1.65, 4.9, 190},
       {1.5, 4.1, 143}},
      {{5.85, 6.45, 545}, {5.8, 6.0, 470}, {5.75, 5.4, 380}, {5.6, 4.8, 270}, {5.5, 4.3, 205}},
      // The twins.
      {{7.75, 6.7, 500}, {7.66, 5.6, 360}, {7.6, 4.5, 235}},
      {{8.15, 6.7, 505}, {8.02, 5.6, 364}, {7.95, 4.55, 241}},
      {{9.6, 5.9, 430}, {9.3, 5.2, 320}, {9.1, 4.7, 271}},
      // Grethe valley, north.
      {{2.6, 7.4, 430},
       {2.5, 8.0, 300},
       {2.6, 8.9, 288},
       {2.4, 9.9, 280},
       {2.0, 10.8, 262},
       {1.9, 12.8, 215}},
      {{1.2, 9.35, 430}, {1.7, 9.6, 330}, {2.4, 9.9, 280}},
      // Mickle valley, north.
      {{4.75, 7.75, 530},
       {5.1, 8.3, 400},
       {5.2, 8.9, 346},
       {5.5, 9.8, 326},
       {5.7, 10.8, 292},
       {5.9, 12.8, 230}},
      {{3.95, 8.7, 540}, {4.15, 9.3, 425}, {4.7, 9.9, 362}, {5.45, 10.2, 312}},
      {{6.0, 7.15, 545}, {5.9, 7.9, 430}, {5.45, 8.7, 356}},
      // Between Vannet Fell and the long ridge, north.
      {{7.4, 7.6, 510}, {7.5, 8.6, 420}, {7.4, 9.8, 360}, {7.2, 11.0, 310}, {7.3, 12.8, 260}},
      // East and north-east.
      {{10.3, 9.8, 442}, {11.2, 9.9, 424}, {12.8, 10.1, 380}},
      {{10.6, 7.3, 438}, {11.6, 7.1, 390}, {12.8, 6.9, 340}},
      {{9.9, 11.2, 430}, {9.8, 12.8, 340}},
      // South of the road.
      {{5.9, 2.7, 400},
       {5.0, 2.85, 330},
       {3.6, 2.95, 262},
       {2.2, 3.05, 200},
       {0.9, 3.5, 145},
       {0.3, 3.85, 130}},
      {{6.3, 1.5, 430}, {6.0, 0.8, 340}, {5.6, -0.8, 250}},
      {{9.5, 0.9, 450}, {9.9, -0.8, 340}},
      {{8.6, 3.5, 430}, {8.5, 4.0, 330}, {8.4, 4.6, 254}},
      {{2.6, 1.2, 310}, {1.6, 1.0, 245}, {-0.8, 0.6, 175}},
      {{10.6, 2.8, 420}, {11.6, 2.9, 340}, {12.8, 3.1, 270}}};
  return lines;
}

const std::vector<SkeletonLine>& ridges() {
  static const std::vector<SkeletonLine> lines{
      {{3.9, 7.7, 775},
       {3.3, 7.55, 680},
       {2.8, 7.2, 620},
       {2.2, 6.6, 530},
       {1.3, 6.1, 440},
       {0.5, 5.6, 330},
       {-0.8, 5.3, 240}},
      {{3.9, 7.7, 775}, {4.35, 8.3, 670}, {4.6, 8.9, 540}, {4.75, 9.4, 450}},
      {{3.9, 7.7, 775},
       {3.5, 8.4, 630},
       {3.4, 9.2, 500},
       {3.6, 10.2, 430},
       {3.8, 11.4, 380},
       {3.8, 12.8, 340}},
      {{3.9, 7.7, 775},
       {4.45, 7.38, 650},
       {5.06, 6.96, 758},
       {5.5, 6.9, 655},
       {5.87, 6.8, 592},
       {6.2, 6.75, 690},
       {6.5, 6.6, 850}},
      {{5.06, 6.96, 758},
       {4.95, 6.4, 650},
       {4.65, 5.8, 645},
       {4.35, 5.45, 510},
       {3.95, 5.38, 412},
       {3.45, 5.4, 520},
       {2.8, 5.35, 410},
       {2.2, 5.0, 270}},
      {{6.5, 6.6, 850}, {6.55, 6.0, 660}, {6.6, 5.3, 480}, {6.6, 4.9, 340}},
      {{6.5, 6.6, 850},
       {6.6, 7.4, 710},
       {6.6, 8.3, 610},
       {6.5, 9.2, 530},
       {6.45, 10.2, 460},
       {6.5, 11.4, 410},
       {6.6, 12.8, 350}},
      {{6.5, 6.6, 850}, {7.0, 6.85, 700}, {7.5, 7.1, 610}, {8.0, 7.15, 590}, {8.5, 7.2, 650}},
      // The long ridge.
      {{8.5, 7.2, 650},
       {8.65, 7.9, 705},
       {8.6, 8.6, 670},
       {8.75, 9.3, 718},
       {8.7, 10.0, 655},
       {8.85, 10.7, 620},
       {8.7, 11.5, 540},
       {8.6, 12.8, 440}},
      {{8.5, 7.2, 650},
       {9.0, 6.6, 590},
       {9.8, 6.3, 530},
       {10.2, 5.6, 440},
       {10.8, 4.9, 340},
       {11.0, 4.2, 430},
       {10.2, 3.4, 520},
       {9.4, 2.6, 600}},
      {{7.85, 5.7, 415}, {7.9, 6.7, 530}},
      // West.
      {{-0.8, 6.9, 360},
       {0.3, 6.9, 480},
       {0.7, 7.8, 620},
       {1.1, 8.5, 665},
       {0.5, 9.3, 575},
       {0.8, 10.3, 535},
       {0.7, 11.6, 460},
       {0.6, 12.8, 400}},
      // South.
      {{9.4, 2.6, 600}, {10.4, 1.9, 540}, {11.6, 1.7, 450}, {12.8, 1.6, 380}},
      {{7.0, 2.2, 610},
       {6.5, 2.9, 520},
       {6.2, 3.6, 440},
       {4.8, 3.6, 415},
       {3.2, 3.6, 340},
       {2.0, 3.6, 240}},
      {{7.6, 1.6, 600}, {7.4, 0.8, 530}, {7.2, -0.8, 420}},
      {{7.0, 2.2, 610},
       {6.3, 2.1, 520},
       {5.7, 2.1, 465},
       {4.9, 2.0, 530},
       {4.0, 1.9, 590},
       {3.0, 2.0, 510},
       {1.8, 2.0, 400},
       {0.4, 1.9, 280},
       {-0.8, 1.8, 220}},
      {{4.0, 1.9, 590}, {3.9, 0.9, 460}, {3.8, -0.8, 360}}};
  return lines;
}

std::span<const Flat> flats() {
  static constexpr std::array<Flat, 2> list{
      {{8.2, 2.25, 1.35, 0.72, 622, 4, 0.9}, {10.5, 8.6, 1.5, 1.25, 458, 16, 0.7}}};
  return list;
}

const std::vector<Crag>& crags() {
  static const std::vector<Crag> list{
      {"Skarrow Crag", true, 75, {{4.3, 8.42, 0}, {4.52, 8.12, 0}, {4.66, 7.8, 0}}},
      {"Brennow Edge", true, 55, {{4.62, 7.46, 0}, {4.85, 7.35, 0}, {5.12, 7.2, 0}}},
      {"Orrin Scar", true, 50, {{5.36, 7.06, 0}, {5.38, 6.9, 0}, {5.44, 6.74, 0}}},
      {"Vannet Crag", false, 65, {{6.27, 6.92, 0}, {6.33, 6.7, 0}, {6.42, 6.48, 0}}},
      {"Thrael Crag", false, 65, {{3.72, 7.28, 0}, {3.95, 7.3, 0}, {4.2, 7.18, 0}}},
      {"Tarrow Edge",
       true,
       60,
       {{6.86, 1.95, 0},
        {6.84, 2.4, 0},
        {7.1, 2.8, 0},
        {7.6, 3.02, 0},
        {8.2, 3.06, 0},
        {8.75, 2.98, 0}}},
      {"Gaulin Crag", false, 55, {{1.95, 8.45, 0}, {1.98, 8.8, 0}, {1.93, 9.15, 0}}},
      {"Hethra Scar", false, 50, {{8.93, 8.95, 0}, {8.98, 9.25, 0}, {8.95, 9.6, 0}}}};
  return list;
}

std::span<const Lake> lakes() {
  static constexpr std::array<Lake, 6> list{{{"Grethe Water", 2.3, 10.2, 2050, 260, 260},
                                             {"Thrael Tarn", 3.35, 6.2, 560, 190, 220},
                                             {"Sill Tarn", 4.25, 9.42, 330, 100, 140},
                                             {"Mornel Tarn", 7.45, 8.1, 300, 95, 140},
                                             {"Corrow Tarn", 5.5, 2.75, 320, 105, 160},
                                             {"Lowen Tarn", 11.3, 9.9, 420, 130, 200}}};
  return list;
}

std::span<const Name> summits() {
  static constexpr std::array<Name, 19> list{{{"Great Skarrow", 3.9, 7.7},
                                              {"Harrik Pike", 5.06, 6.96},
                                              {"Vannet Fell", 6.5, 6.6},
                                              {"Sallow Knott", 3.45, 5.4},
                                              {"Rowk Hill", 4.65, 5.8},
                                              {"Little Skarrow", 2.8, 7.2},
                                              {"Hethra Pike", 8.75, 9.3},
                                              {"Sorrel Top", 8.65, 7.9},
                                              {"Cawdrow Hill", 8.85, 10.7},
                                              {"Gaulin Fell", 1.1, 8.5},
                                              {"Ostry Knott", 0.8, 10.3},
                                              {"Dunnow Moor", 8.2, 2.25},
                                              {"Corrow Fell", 4.0, 1.9},
                                              {"Nettle Rigg", 4.8, 3.6},
                                              {"Ullow Top", 4.9, 2.0},
                                              {"Mornel Pike", 6.6, 7.9},
                                              {"Hagg Knott", 10.2, 3.4},
                                              {"Penrow Hill", 10.4, 1.9},
                                              {"Thornel Rigg", 6.45, 10.2}}};
  return list;
}

std::span<const Name> saddles() {
  static constexpr std::array<Name, 9> list{{{"Low Hause", 3.95, 5.38},
                                             {"Kell Gap", 5.87, 6.8},
                                             {"Brennow Hause", 4.45, 7.38},
                                             {"Mornel Hause", 8.0, 7.15},
                                             {"Easter Gap", 10.8, 4.9},
                                             {"Corrow Gap", 5.7, 2.1},
                                             {"Hethra Gap", 8.6, 8.6},
                                             {"Quenna Hause", 4.85, 6.3},
                                             {"Ostry Gap", 0.5, 9.3}}};
  return list;
}

std::span<const Name> becks() {
  static constexpr std::array<Name, 16> list{{{"River Ostrel", 3.0, 4.25},
                                              {"Fallow Beck", 3.85, 4.7},
                                              {"Ashrow Beck", 4.15, 6.85},
                                              {"Thrael Beck", 2.2, 5.7},
                                              {"Brindle Beck", 5.75, 5.4},
                                              {"Near Twin Beck", 7.66, 5.6},
                                              {"Far Twin Beck", 8.02, 5.6},
                                              {"Grethe Beck", 1.95, 11.4},
                                              {"Mickle Beck", 5.6, 10.4},
                                              {"Sill Beck", 4.7, 9.9},
                                              {"Kell Beck", 5.9, 7.9},
                                              {"Mornel Beck", 7.4, 9.8},
                                              {"Corrow Beck", 3.6, 2.95},
                                              {"Lowen Beck", 11.8, 9.95},
                                              {"Ravock Beck", 11.6, 7.1},
                                              {"Tarrow Gill", 8.5, 4.0}}};
  return list;
}

std::span<const Name> mosses() {
  static constexpr std::array<Name, 6> list{{{"Mickle Moss", 5.25, 9.2},
                                             {"Quenna Moss", 4.6, 6.45},
                                             {"Ravock Moss", 10.6, 8.7},
                                             {"Dunnow Flats", 8.2, 2.3},
                                             {"Ling Moss", 11.0, 9.8},
                                             {"Nether Moss", 2.2, 10.6}}};
  return list;
}

std::span<const Name> woods() {
  static constexpr std::array<Name, 7> list{{{"Hollan Wood", 2.55, 4.85},
                                             {"Fallow Wood", 4.35, 4.6},
                                             {"Ostrel Plantation", 6.6, 4.1},
                                             {"Hosk Wood", 1.2, 4.5},
                                             {"Twin Plantation", 8.6, 5.0},
                                             {"Grethe Wood", 2.9, 9.6},
                                             {"Corrow Wood", 2.9, 3.15}}};
  return list;
}

std::span<const Name> farms() {
  static constexpr std::array<Name, 12> list{{{"Fallow House", 3.95, 4.55},
                                              {"Withen House", 5.35, 4.55},
                                              {"Tarn House", 2.9, 6.1},
                                              {"Twin House", 7.8, 4.75},
                                              {"Nether Hosk", 2.0, 4.4},
                                              {"Grethe House", 2.75, 10.3},
                                              {"Mickle House", 5.75, 10.9},
                                              {"Mornel House", 7.3, 11.0},
                                              {"Corrow House", 3.5, 3.05},
                                              {"Easter House", 9.5, 4.9},
                                              {"Ravock House", 11.6, 7.2},
                                              {"Ostrel House", 6.7, 4.5}}};
  return list;
}

std::span<const Name> settlements() {
  static constexpr std::array<Name, 3> list{
      {{"Hosk", 2.9, 4.4}, {"Ostrel Foot", 0.8, 4.1}, {"Grethe Foot", 2.0, 11.2}}};
  return list;
}

std::span<const Name> bridges() {
  static constexpr std::array<Name, 4> list{{{"Fallow Bridge", 3.85, 4.4},
                                             {"Withen Bridge", 5.55, 4.4},
                                             {"Twin Bridge", 7.65, 4.6},
                                             {"Hosk Bridge", 1.6, 4.3}}};
  return list;
}

std::span<const Name> regions() {
  static constexpr std::array<Name, 4> list{{{"Skarrow Fells", 5.0, 7.7},
                                             {"Ravock Moor", 10.4, 8.2},
                                             {"Ostreldale", 4.6, 4.25},
                                             {"Grethedale", 2.3, 9.2}}};
  return list;
}

}  // namespace lodeway::fells::design
