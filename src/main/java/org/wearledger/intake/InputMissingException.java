package org.wearledger.intake;

import java.io.IOException;

/** An argument names no file, or a side table cannot serve as one; the message is for the user. */
public final class InputMissingException extends IOException {
    /** With the whole sentence that the user reads. */
    public InputMissingException(String message) {
        super(message);
    }
}
