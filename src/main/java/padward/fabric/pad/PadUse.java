package padward.fabric.pad;

import java.util.Locale;
import padward.fabric.delay.Delay;

/**
 * What a pad is meant for, and whether it is connected to a pin or ball of the package at all: one
 * die comes in packages with fewer pins than it has pads.
 *
 * @param bonding whether the package connects it
 * @param role what it is meant for
 * @param packageDelay how long the package takes from the pad to the pin or ball, as makers publish
 *     it for each; zero when not known
 * @param driving how it is driven
 */
public record PadUse(Bonding bonding, Role role, Delay packageDelay, PadDriving driving) {
    /** Of a pad of which the description says nothing of the kind. */
    public static final PadUse UNSTATED = new PadUse(Bonding.UNKNOWN, Role.GENERAL);

    /** Of a pad whose connection in the package has no known delay. */
    public PadUse(Bonding bonding, Role role) {
        this(bonding, role, Delay.ZERO);
    }

    /** Of a pad of whose driving nothing is said. */
    public PadUse(Bonding bonding, Role role, Delay packageDelay) {
        this(bonding, role, packageDelay, PadDriving.UNSTATED);
    }

    /** Whether the package connects a pad. */
    public enum Bonding {
        /** It does. */
        BONDED,
        /** It does not: no pin shows what happens there. */
        UNBONDED,
        /** The description does not say. */
        UNKNOWN
    }

    /** What a pad is meant for. */
    public enum Role {
        /** Any signal of a design. */
        GENERAL,
        /** A clock that comes from the board; it can serve as a general pad. */
        CLOCK,
        /** Loading the device's configuration. */
        CONFIGURATION,
        /** Testing the device or the board. */
        TEST,
        /** A reference voltage of its bank. */
        REFERENCE,
        /** Something else for which it must be left alone. */
        RESERVED;

        /** The word in files and tables. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Whether a net may be brought out there without being asked to: bonded, and for any signal.
     */
    public boolean isOffered() {
        return bonding != Bonding.UNBONDED && (role == Role.GENERAL || role == Role.CLOCK);
    }

    /** Why the pad is not offered, in a few words; empty when it is. */
    public String whyNotOffered() {
        if (bonding == Bonding.UNBONDED) {
            return "not bonded out";
        }
        return switch (role) {
            case GENERAL, CLOCK -> "";
            case CONFIGURATION -> "for configuration";
            case TEST -> "for testing";
            case REFERENCE -> "for a reference voltage";
            case RESERVED -> "reserved";
        };
    }
}
