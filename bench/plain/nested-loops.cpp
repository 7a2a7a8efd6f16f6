// Plain nested loops over the physical gears, with doubles; see nested-loops.js, which this follows.
//   g++ -O3 -std=c++17 -o nested-loops nested-loops.cpp
//   ./nested-loops 254/195 500 3 20x2 22 24 ...
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iterator>
#include <set>
#include <utility>
#include <vector>

using Gears = std::vector<double>;
struct Window {
  double low, high;
};

Gears without(const Gears& z, std::initializer_list<int> taken) {
  Gears left;
  for (int at = 0; at < (int)z.size(); at++)
    if (std::find(taken.begin(), taken.end(), at) == taken.end()) left.push_back(z[at]);
  return left;
}

// How many of the gears from `first` on, times `others`, lie within the bounds. The innermost loop of all, without a
// branch, so that the compiler can take several gears at a time.
inline long within(const Gears& left, int first, double others, double least, double most) {
  int hits = 0;
  for (int c = first; c < (int)left.size(); c++) {
    const double driven = others * left[c];
    hits += (driven >= least) & (driven <= most);
  }
  return hits;
}

// Each `loops` calls `each(drivers, other driven, left, first, least, most)` wherever the innermost loop hits.
template <class Each>
long oneStage(const Gears& z, Window w, Each each) {
  long hits = 0;
  for (int i = 0; i < (int)z.size(); i++) {
    const double least = z[i] / w.high, most = z[i] / w.low;
    const Gears left = without(z, {i});
    const long here = within(left, 0, 1, least, most);
    if (here) each({z[i]}, {}, left, 0, least, most);
    hits += here;
  }
  return hits;
}

template <class Each>
long twoStages(const Gears& z, Window w, Each each) {
  long hits = 0;
  const int n = z.size();
  for (int i = 0; i < n; i++)
    for (int j = i + 1; j < n; j++) {
      const double drivers = z[i] * z[j], least = drivers / w.high, most = drivers / w.low;
      const Gears left = without(z, {i, j});
      for (int a = 0; a < n - 2; a++) {
        const long here = within(left, a + 1, left[a], least, most);
        if (here) each({z[i], z[j]}, {left[a]}, left, a + 1, least, most);
        hits += here;
      }
    }
  return hits;
}

template <class Each>
long threeStages(const Gears& z, Window w, Each each) {
  long hits = 0;
  const int n = z.size();
  for (int i = 0; i < n; i++)
    for (int j = i + 1; j < n; j++) {
      const double two = z[i] * z[j];
      for (int k = j + 1; k < n; k++) {
        const double drivers = two * z[k], least = drivers / w.high, most = drivers / w.low;
        const Gears left = without(z, {i, j, k});
        for (int a = 0; a < n - 3; a++)
          for (int b = a + 1; b < n - 3; b++) {
            const long here = within(left, b + 1, left[a] * left[b], least, most);
            if (here) each({z[i], z[j], z[k]}, {left[a], left[b]}, left, b + 1, least, most);
            hits += here;
          }
      }
    }
  return hits;
}

template <class Each>
long loops(int stages, const Gears& gears, Window w, Each each) {
  if (stages == 1) return oneStage(gears, w, each);
  if (stages == 2) return twoStages(gears, w, each);
  return threeStages(gears, w, each);
}

struct Nothing {
  struct Any {
    Any(std::initializer_list<double>) {}
  };
  void operator()(Any, Any, const Gears&, int, double, double) const {}
};

// Hits told apart by tooth counts only, less those of two stages or more with one count on both sides.
long countSets(int stages, const Gears& gears, Window w) {
  std::set<std::pair<Gears, Gears>> sets;
  loops(stages, gears, w, [&](Gears drivers, Gears others, const Gears& left, int first, double least, double most) {
    double product = 1;
    for (double teeth : others) product *= teeth;
    for (int c = first; c < (int)left.size(); c++) {
      if (product * left[c] < least || product * left[c] > most) continue;
      Gears top = drivers, below = others, both;
      below.push_back(left[c]);
      std::sort(top.begin(), top.end());
      std::sort(below.begin(), below.end());
      std::set_intersection(top.begin(), top.end(), below.begin(), below.end(), std::back_inserter(both));
      if (stages == 1 || both.empty()) sets.insert({top, below});
    }
  });
  return sets.size();
}

int main(int count, char** words) {
  if (count < 5) {
    std::fprintf(stderr, "usage: nested-loops <ratio, 254/195> <ppm> <most stages, 1 to 3> <20x2 22 24 ...>\n");
    return 1;
  }
  const char* slash = std::strchr(words[1], '/');
  const double ratio = std::atof(words[1]) / (slash ? std::atof(slash + 1) : 1);
  const double ppm = std::atof(words[2]);
  const int stages = std::min(3, std::atoi(words[3]));
  Gears gears;
  for (int i = 4; i < count; i++) {
    const char* times = std::strchr(words[i], 'x');
    gears.insert(gears.end(), times ? std::atoi(times + 1) : 1, std::atoi(words[i]));
  }
  const Window window = {ratio * (1 - ppm / 1e6), ratio * (1 + ppm / 1e6)};
  long physical[4] = {};
  const auto began = std::chrono::steady_clock::now();
  for (int s = 1; s <= stages; s++) physical[s] = loops(s, gears, window, Nothing());
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - began;
  std::printf("{\"physical\":[");
  for (int s = 1; s <= stages; s++) std::printf("%s%ld", s > 1 ? "," : "", physical[s]);
  std::printf("],\"sets\":[");
  for (int s = 1; s <= stages; s++) std::printf("%s%ld", s > 1 ? "," : "", countSets(s, gears, window));
  std::printf("],\"ms\":%.3f}\n", took.count());
}
