package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import padward.base.BadInput;
import padward.fabric.PadUse;
import padward.format.json.JsonIn;

/** The members that say what a pad is meant for; those that are not stated are left out. */
final class PadUseMembers {
    private PadUseMembers() {}

    /** Reads the member {@code bonded}. */
    static PadUse.Bonding readBonded(JsonIn in) throws BadInput {
        return in.flag() ? PadUse.Bonding.BONDED : PadUse.Bonding.UNBONDED;
    }

    /** Reads the member {@code role}. */
    static PadUse.Role readRole(JsonIn in) throws BadInput {
        return in.oneOf(PadUse.Role.values(), PadUse.Role::label);
    }

    static void write(JsonWriter out, PadUse use) throws IOException {
        if (use.bonding() != PadUse.Bonding.UNKNOWN) {
            out.name("bonded").value(use.bonding() == PadUse.Bonding.BONDED);
        }
        if (use.role() != PadUse.Role.GENERAL) {
            out.name("role").value(use.role().label());
        }
    }
}
