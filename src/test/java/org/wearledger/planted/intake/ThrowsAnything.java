package org.wearledger.planted.intake;

final class ThrowsAnything {
    void checked() throws Exception {
        throw new Exception("planted");
    }

    void unchecked() {
        throw new RuntimeException("planted");
    }

    void throwable() throws Throwable {
        throw new Throwable("planted");
    }

    /** A named failure is allowed. */
    static final class Named extends RuntimeException {
        Named() {
            super("planted");
        }
    }
}
