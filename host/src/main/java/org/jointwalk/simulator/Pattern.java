package org.jointwalk.simulator;

import java.util.Arrays;
import java.util.BitSet;
import java.util.PriorityQueue;

/**
 * Where the factor of a network has entries, once the nodes are put in an order of small fill
 * (minimum degree). Depends on which nodes are joined, not on how well, so one pattern serves every
 * state of a topology. Building costs about a millisecond per thousand nodes of a ring. Immutable
 * after construction; its arrays are read by {@link Factor} only.
 */
final class Pattern {

  /** Node to column. */
  final int[] column;

  /** First entry of each column, and one more. */
  final int[] start;

  /** Row of each entry, ascending within its column; every row lies after its column. */
  final int[] row;

  /** Column of each entry. */
  final int[] columnOf;

  /** First place of each row in {@link #rowEntry}, and one more. */
  final int[] rowStart;

  /** The entries of each row, by ascending column. */
  final int[] rowEntry;

  /** Edge to entry; -1 for an edge from a node to itself. */
  final int[] slot;

  private final int[] from;
  private final int[] to;
  private final int last;

  /**
   * @param nodes how many there are
   * @param last how many of the highest-numbered nodes are to be put last whatever their degree
   * @param a one end of each edge
   * @param b the other end of each edge
   */
  Pattern(int nodes, int last, int[] a, int[] b) {
    from = a.clone();
    to = b.clone();
    this.last = last;
    BitSet[] next = new BitSet[nodes];
    Arrays.setAll(next, i -> new BitSet(nodes));
    for (int e = 0; e < a.length; e++) {
      if (a[e] != b[e]) {
        next[a[e]].set(b[e]);
        next[b[e]].set(a[e]);
      }
    }
    column = new int[nodes];
    int[][] remaining = eliminate(next, nodes - last);
    start = new int[nodes + 1];
    for (int j = 0; j < nodes; j++) {
      start[j + 1] = start[j] + remaining[j].length;
    }
    row = new int[start[nodes]];
    columnOf = new int[start[nodes]];
    rowStart = new int[nodes + 1];
    for (int j = 0; j < nodes; j++) {
      int[] rows = Arrays.stream(remaining[j]).map(node -> column[node]).sorted().toArray();
      System.arraycopy(rows, 0, row, start[j], rows.length);
      Arrays.fill(columnOf, start[j], start[j + 1], j);
      for (int r : rows) {
        rowStart[r + 1]++;
      }
    }
    Arrays.parallelPrefix(rowStart, Integer::sum);
    rowEntry = new int[row.length];
    int[] filled = rowStart.clone();
    for (int q = 0; q < row.length; q++) {
      rowEntry[filled[row[q]]++] = q;
    }
    slot = new int[a.length];
    for (int e = 0; e < a.length; e++) {
      slot[e] = a[e] == b[e] ? -1 : entry(column[a[e]], column[b[e]]);
    }
  }

  /** Whether this is the pattern of just these edges. */
  boolean fits(int nodes, int last, int[] a, int[] b) {
    return nodes == column.length
        && last == this.last
        && Arrays.equals(a, from)
        && Arrays.equals(b, to);
  }

  int size() {
    return column.length;
  }

  /** Puts the nodes in order and returns, by column, the nodes that each is still joined to. */
  private int[][] eliminate(BitSet[] next, int free) {
    int nodes = next.length;
    int[][] remaining = new int[nodes][];
    int[] degree = new int[nodes];
    PriorityQueue<Long> queue = new PriorityQueue<>();
    for (int i = 0; i < nodes; i++) {
      degree[i] = next[i].cardinality();
      queue.add(rank(i, degree[i], i < free));
    }
    boolean[] done = new boolean[nodes];
    int place = 0;
    while (place < nodes) {
      long head = queue.remove();
      int node = (int) (head & 0xFFFFFFFFL);
      if (done[node] || head != rank(node, degree[node], node < free)) {
        continue;
      }
      done[node] = true;
      column[node] = place;
      int[] neighbours = next[node].stream().toArray();
      remaining[place++] = neighbours;
      for (int other : neighbours) {
        next[other].or(next[node]);
        next[other].clear(node);
        next[other].clear(other);
        degree[other] = next[other].cardinality();
        queue.add(rank(other, degree[other], other < free));
      }
    }
    return remaining;
  }

  private static long rank(int node, int degree, boolean free) {
    return ((free ? 0L : 1L << 24) + degree) << 32 | node;
  }

  private int entry(int i, int j) {
    int low = Math.min(i, j);
    int found = Arrays.binarySearch(row, start[low], start[low + 1], Math.max(i, j));
    if (found < 0) {
      throw new IllegalStateException("an edge has no entry between columns " + i + " and " + j);
    }
    return found;
  }
}
