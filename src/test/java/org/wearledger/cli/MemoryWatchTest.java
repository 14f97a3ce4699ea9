package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What counts as want of memory in a thread that nobody waits for. The watch is not started here: it would end these tests. */
class MemoryWatchTest {
    static List<Arguments> thrown() {
        Throwable circle = new IllegalStateException("a circle");
        circle.initCause(new IOException(circle));
        return List.of(
            Arguments.of("itself", new OutOfMemoryError("Java heap space"), true),
            Arguments.of("as a cause", new IllegalStateException(new IOException(new OutOfMemoryError("GC overhead limit exceeded"))), true),
            Arguments.of("too deep for anybody to have meant it", wrapped(new OutOfMemoryError(), MachineFault.MOST_CAUSES), false),
            Arguments.of("a file's fault", new IOException("No space left on device"), false),
            Arguments.of("a stack too deep, which more memory does not cure", new StackOverflowError(), false),
            Arguments.of("causes in a circle", circle, false));
    }

    private static Throwable wrapped(Throwable inner, int times) {
        return times == 0 ? inner : wrapped(new IllegalStateException(inner), times - 1);
    }

    @ParameterizedTest(name = "{0}: {2}")
    @MethodSource("thrown")
    void wantOfMemoryIsToldFromOtherFaults(String name, Throwable thrown, boolean wantOfMemory) {
        List<Throwable> handedOn = new ArrayList<>();
        MemoryWatch watch = new MemoryWatch((thread, other) -> handedOn.add(other));
        watch.uncaughtException(Thread.currentThread(), thrown);
        assertThat(watch.isExhausted()).isEqualTo(wantOfMemory);
        assertThat(handedOn).isEqualTo(wantOfMemory ? List.of() : List.of(thrown));
    }

    /** Another thread's fault must not take back what was seen. */
    @Test
    void onceMemoryRanOutItStaysSo() {
        MemoryWatch watch = new MemoryWatch((thread, other) -> { });
        watch.uncaughtException(Thread.currentThread(), new OutOfMemoryError());
        watch.uncaughtException(Thread.currentThread(), new IOException());
        assertThat(watch.isExhausted()).isTrue();
    }
}
