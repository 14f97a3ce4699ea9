package org.wearledger.job;

import java.io.IOException;

/** The user named an input that cannot be used; the message is for the user. */
public final class InputRefusedException extends IOException {
    InputRefusedException(String message, Throwable cause) {
        super(message, cause);
    }
}
