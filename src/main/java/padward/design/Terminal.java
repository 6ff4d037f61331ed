package padward.design;

import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/** Where a net begins or ends. */
public sealed interface Terminal {
    /**
     * A pin of a cell.
     *
     * @param cell number of the cell
     * @param pin name of the pin at the cell's site
     */
    record CellPin(int cell, String pin) implements Terminal {
        // In plain code, which starts sooner than what Java makes of a record by itself.
        @Override
        public boolean equals(Object other) {
            return other instanceof CellPin that && cell == that.cell && pin.equals(that.pin);
        }

        @Override
        public int hashCode() {
            return 31 * cell + pin.hashCode();
        }
    }

    /**
     * A port of the design.
     *
     * @param port number of the port
     * @param role what of the port
     */
    record PortEnd(int port, Role role) implements Terminal {
        /** What of a port a net begins or ends at. */
        public enum Role {
            /** Its pad. */
            PAD,
            /**
             * The enable of its pad's driver: the net switches the driver, with no cell between.
             */
            ENABLE
        }

        /** Its pad. */
        public PortEnd(int port) {
            this(port, Role.PAD);
        }

        /** The end that switches a port's driver. */
        public static PortEnd enableOf(int port) {
            return new PortEnd(port, Role.ENABLE);
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof PortEnd that && port == that.port && role == that.role;
        }

        @Override
        public int hashCode() {
            return 31 * port + role.ordinal();
        }

        /** Whether it is an end of that port, at its pad or its enable. */
        public boolean isOf(Port other) {
            return port == other.id();
        }

        /**
         * The vertex where it meets the fabric.
         *
         * @param at the port
         */
        public int vertexOn(Fabric fabric, Port at) {
            Pad pad = fabric.pads().get(at.pad());
            return switch (role) {
                case PAD -> pad.vertex();
                case ENABLE -> EnableSites.endOf(fabric, pad);
            };
        }

        /**
         * As people write it: {@code port NAME} or {@code enable of port NAME}.
         *
         * @param at the port
         */
        public String toText(Port at) {
            return switch (role) {
                case PAD -> "port " + at.name();
                case ENABLE -> "enable of port " + at.name();
            };
        }
    }
}
