package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import padward.fabric.Bank;
import padward.fabric.CellKind;
import padward.fabric.DriverSetting;
import padward.fabric.FabricInfo;
import padward.fabric.PadEnable;
import padward.format.json.EnumWords;
import padward.format.json.FileHeader;
import padward.format.json.JsonOut;

/** Writes the members that both forms of a fabric begin with. */
final class InfoWriter {
    private InfoWriter() {}

    static void write(JsonWriter out, String form, FabricInfo info, int columns, int rows)
            throws IOException {
        out.name("format").value(FileHeader.FABRIC);
        out.name("form").value(form);
        out.name("name").value(info.name());
        JsonOut.optional(out, "note", info.note());
        out.name("grid").beginObject();
        out.name("columns").value(columns).name("rows").value(rows);
        out.endObject();
        out.name("cellKinds").beginArray();
        for (CellKind kind : info.cellKinds()) {
            out.beginObject().name("name").value(kind.name());
            out.name("holdsState").value(kind.holdsState()).endObject();
        }
        out.endArray();
        out.name("settings").beginArray();
        for (DriverSetting setting : info.settings()) {
            out.beginObject().name("name").value(setting.name());
            out.name("standard").value(setting.standard());
            out.name("millivolts").value(setting.millivolts());
            out.name("milliamps").value(setting.milliamps());
            out.name("slew").value(setting.slew());
            JsonOut.delay(out, "delay_ps", setting.delay());
            ElectricalParts.write(out, setting.output());
            if (setting.differential()) {
                out.name("differential").value(true);
            }
            out.endObject();
        }
        out.endArray();
        out.name("banks").beginArray();
        for (Bank bank : info.banks()) {
            out.beginObject().name("name").value(bank.name());
            out.name("millivolts").value(bank.millivolts()).endObject();
        }
        out.endArray();
        ElectricalParts.write(out, info.electrical());
    }

    /** Writes what is known of the enable of a pad's driver. */
    static void writeEnable(JsonWriter out, PadEnable enable) throws IOException {
        if (enable.active() != PadEnable.Active.UNKNOWN) {
            out.name("enableActive").value(EnumWords.of(enable.active()));
        }
        if (enable.unconnected() != PadEnable.Unconnected.UNKNOWN) {
            out.name("enableUnconnected").value(EnumWords.of(enable.unconnected()));
        }
    }
}
