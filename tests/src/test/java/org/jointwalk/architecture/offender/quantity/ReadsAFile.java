package org.jointwalk.architecture.offender.quantity;

import java.nio.file.Path;

record ReadsAFile(Path path) {}
