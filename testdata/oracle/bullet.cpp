// Distances of convex bodies by the library Bullet in float64, without margins: boxes as boxes, others as
// the hulls of their points; nearest points by its GJK, depths by its EPA.
//
//   bullet PAIRS.txt OUT.json TIMES.txt
//
// PAIRS.txt holds a line for each pair, as fold/solid's TestRival writes it: kind; then for each body "box"
// with its middle, three axes and half sizes, or "hull" with a count and the points.

#include <btBulletCollisionCommon.h>
#include <BulletCollision/NarrowPhaseCollision/btGjkEpaPenetrationDepthSolver.h>
#include <BulletCollision/NarrowPhaseCollision/btGjkPairDetector.h>
#include <BulletCollision/NarrowPhaseCollision/btPointCollector.h>
#include <BulletCollision/NarrowPhaseCollision/btVoronoiSimplexSolver.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#ifndef BT_USE_DOUBLE_PRECISION
#error "build with -DBT_USE_DOUBLE_PRECISION and the -float64 libraries"
#endif

struct Placed {
  btConvexShape *shape;
  btTransform at;
};

static btVector3 vec(std::istream &in) {
  double x, y, z;
  in >> x >> y >> z;
  return btVector3(x, y, z);
}

static Placed body(std::istream &in) {
  Placed p;
  std::string what;
  in >> what;
  p.at.setIdentity();
  if (what == "box") {
    btVector3 o = vec(in), x = vec(in), y = vec(in), z = vec(in);
    p.at = btTransform(btMatrix3x3(x.x(), y.x(), z.x(), x.y(), y.y(), z.y(), x.z(), y.z(), z.z()), o);
    p.shape = new btBoxShape(vec(in));
  } else {
    int n;
    in >> n;
    btConvexHullShape *h = new btConvexHullShape();
    for (int i = 0; i < n; i++) h->addPoint(vec(in), i == n - 1);
    p.shape = h;
  }
  p.shape->setMargin(0);
  return p;
}

static btVoronoiSimplexSolver simplex;
static btGjkEpaPenetrationDepthSolver epa;

static void measure(const Placed &a, const Placed &b, btPointCollector &out) {
  btGjkPairDetector gjk(a.shape, b.shape, &simplex, &epa);
  btGjkPairDetector::ClosestPointInput in;
  in.m_transformA = a.at;
  in.m_transformB = b.at;
  gjk.getClosestPoints(in, out, 0);
}

int main(int argc, char **argv) {
  if (argc != 4) {
    fprintf(stderr, "usage: bullet PAIRS.txt OUT.json TIMES.txt\n");
    return 2;
  }
  std::ifstream in(argv[1]);
  FILE *out = fopen(argv[2], "w"), *times = fopen(argv[3], "w");
  if (!in || !out || !times) {
    perror("bullet");
    return 1;
  }
  fprintf(out, "{\"made_by\": \"bullet %d.%d float64\",\n \"pairs\": [", btGetVersion() / 100, btGetVersion() % 100);
  std::map<std::string, double> sum;
  std::map<std::string, int> count;
  std::vector<std::string> kinds;
  std::string line;
  for (int n = 0; std::getline(in, line); n++) {
    size_t cut = line.find(';');
    std::string kind = line.substr(0, cut);
    std::istringstream rest(line.substr(cut + 1));
    Placed a = body(rest), b = body(rest);
    btPointCollector c;
    measure(a, b, c);
    const int times = 200;
    double best = INFINITY;
    for (int rep = 0; rep < 10; rep++) {  // the least of ten: the machine does other things too
      auto start = std::chrono::steady_clock::now();
      for (int k = 0; k < times; k++) {
        btPointCollector d;
        measure(a, b, d);
      }
      best = std::min(best, std::chrono::duration<double, std::nano>(std::chrono::steady_clock::now() - start).count() / times);
    }
    if (!count[kind]++) kinds.push_back(kind);
    sum[kind] += best;
    btVector3 v = c.m_normalOnBInWorld;
    fprintf(out, "%s\n  {\"kind\": \"%s\", \"d\": %.17g, \"n\": [%.17g, %.17g, %.17g]}", n ? "," : "", kind.c_str(), c.m_distance, v.x(), v.y(), v.z());
    delete a.shape;
    delete b.shape;
  }
  fprintf(out, "\n ]}\n");
  for (auto &k : kinds) fprintf(times, "%s;%.0f\n", k.c_str(), sum[k] / count[k]);
  fclose(out);
  fclose(times);
}
