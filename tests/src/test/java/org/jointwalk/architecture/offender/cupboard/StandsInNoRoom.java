package org.jointwalk.architecture.offender.cupboard;

final class StandsInNoRoom {}
