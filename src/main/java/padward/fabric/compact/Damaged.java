package padward.fabric.compact;

import java.io.IOException;

/** A compact copy is not what was written: it was damaged, cut short, or made by somebody else. */
public final class Damaged extends IOException {
    /**
     * @param what what does not hold, for those who look for the reason
     */
    public Damaged(String what) {
        super(what);
    }

    /**
     * Requires something of what was read.
     *
     * @throws Damaged when it does not hold
     */
    public static void unless(boolean holds, String what) throws Damaged {
        if (!holds) {
            throw new Damaged(what);
        }
    }
}
