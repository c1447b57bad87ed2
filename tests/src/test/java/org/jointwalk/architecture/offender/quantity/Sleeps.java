package org.jointwalk.architecture.offender.quantity;

final class Sleeps {

  void nap() throws InterruptedException {
    Thread.sleep(1);
  }
}
