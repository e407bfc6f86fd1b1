/* Priority-flood with a binary heap (Barnes, Lehman & Mulla 2014), D8 and accumulation, as one would write them in C. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef struct { float z; int cell; } Entry;

static Entry *heap;
static int heaped = 0;

static void put(float z, int cell) {
  int i = heaped++;
  while (i > 0 && heap[(i - 1) / 2].z > z) {
    heap[i] = heap[(i - 1) / 2];
    i = (i - 1) / 2;
  }
  heap[i].z = z;
  heap[i].cell = cell;
}

static Entry take(void) {
  Entry top = heap[0], last = heap[--heaped];
  int i = 0;
  for (;;) {
    int k = 2 * i + 1;
    if (k >= heaped) break;
    if (k + 1 < heaped && heap[k + 1].z < heap[k].z) k++;
    if (heap[k].z >= last.z) break;
    heap[i] = heap[k];
    i = k;
  }
  heap[i] = last;
  return top;
}

int main(int argc, char **argv) {
  if (argc < 3) return 1;
  int n = atoi(argv[2]), cells = n * n;
  float *z = malloc(sizeof(float) * cells);
  FILE *file = fopen(argv[1], "rb");
  if (!file || fread(z, sizeof(float), cells, file) != (size_t)cells) return 1;
  clock_t start = clock();
  int *order = malloc(sizeof(int) * cells), *area = malloc(sizeof(int) * cells), done = 0;
  signed char *to = malloc(cells), *state = calloc(cells, 1);
  heap = malloc(sizeof(Entry) * cells);
  static const int dc[8] = {0, 1, 1, 1, 0, -1, -1, -1}, dr[8] = {-1, -1, 0, 1, 1, 1, 0, -1};
  for (int i = 0; i < cells; i++) {
    int c = i % n, r = i / n;
    if (c && r && c < n - 1 && r < n - 1) continue;
    put(z[i], i);
    state[i] = 1;
    to[i] = -1;
  }
  while (heaped) {
    int i = take().cell, c = i % n, r = i / n;
    state[i] = 2;
    order[done++] = i;
    float best = 0;
    for (int k = 0; k < 8; k++) {
      int x = c + dc[k], y = r + dr[k];
      if (x < 0 || y < 0 || x >= n || y >= n) continue;
      int j = y * n + x;
      if (state[j] == 2) {
        float fall = (z[i] - z[j]) * (k & 1 ? 0.70710678f : 1);
        if (fall > best) {
          best = fall;
          to[i] = k;
        }
      } else if (!state[j]) {
        to[j] = (k + 4) & 7;
        if (z[j] < z[i]) z[j] = z[i];
        state[j] = 1;
        put(z[j], j);
      }
    }
  }
  for (int i = 0; i < cells; i++) area[i] = 1;
  for (int d = done - 1; d >= 0; d--) {
    int i = order[d], k = to[i];
    if (k >= 0) area[i + dr[k] * n + dc[k]] += area[i];
  }
  double seconds = (double)(clock() - start) / CLOCKS_PER_SEC, sum = 0;
  for (int i = 0; i < cells; i++) sum += z[i];
  printf("%f %.3f\n", seconds, sum);
  return area[0] > 0 ? 0 : 1;
}
