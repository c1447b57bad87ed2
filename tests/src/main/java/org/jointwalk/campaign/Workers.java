package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Does independent pieces of work on all cores. Stateless. */
final class Workers {

  private Workers() {}

  /** The results in the order of the work, whichever was done first. */
  static <T> List<T> inOrder(List<? extends Callable<T>> work) {
    ExecutorService pool =
        Executors.newFixedThreadPool(Math.max(1, Runtime.getRuntime().availableProcessors()));
    try {
      List<Future<T>> under = new ArrayList<>();
      for (Callable<T> piece : work) {
        under.add(pool.submit(piece));
      }
      List<T> done = new ArrayList<>();
      for (Future<T> future : under) {
        done.add(future.get());
      }
      return done;
    } catch (ExecutionException e) {
      throw new IllegalStateException("a piece of the campaign failed", e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("the campaign was interrupted", e);
    } finally {
      pool.shutdownNow();
    }
  }
}
