package org.jointwalk.tool;

import java.lang.annotation.ElementType;
import java.lang.annotation.Repeatable;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Marks a test, or a class of them, that starts a program which a contributor may not have.
 *
 * <p>Without the program the test is skipped and named in the summary. With {@code
 * JOINTWALK_REQUIRE=all} in the environment, as on the build server, it fails instead, so that a
 * check cannot vanish unnoticed.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@Repeatable(NeedsTool.All.class)
@ExtendWith(ToolCondition.class)
public @interface NeedsTool {

  /** The program's name as typed in a shell, found along PATH. */
  String value();

  /** Several of them, each of which is needed. */
  @Target({ElementType.TYPE, ElementType.METHOD})
  @Retention(RetentionPolicy.RUNTIME)
  @ExtendWith(ToolCondition.class)
  @interface All {

    /** The programs. */
    NeedsTool[] value();
  }
}
