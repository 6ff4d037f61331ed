package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import padward.base.BadInput;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Delay;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.ColumnShape.Need;
import padward.format.tables.csv.CsvTable;

/** Delays: {@code [fast, slow]} in JSON, columns in several units in tables. */
record DelayKind() implements Kind<Delay> {
    @Override
    public Delay read(JsonIn in) throws BadInput {
        return in.delay();
    }

    @Override
    public void write(JsonWriter out, Delay delay) throws IOException {
        out.beginArray().value(delay.fastPs()).value(delay.slowPs()).endArray();
    }

    @Override
    public Schema schema() {
        Schema ps = Schema.whole(0, FabricLimits.EDGE_DELAY_PS);
        return Schema.tuple(ps, ps);
    }

    @Override
    public List<ColumnShape> columns(String name, Need need, String meaning) {
        String must = need == Need.MUST ? "; must be given" : "";
        return DelayColumns.shapes(meaning + must);
    }

    @Override
    public Cell<Delay> open(CsvTable table, String name, boolean needed, Delay otherwise) {
        DelayColumns columns = new DelayColumns(table);
        return needed ? columns::readRequired : () -> columns.read().orElse(otherwise);
    }

    @Override
    public void addTo(List<Object> row, Delay delay) {
        row.add(delay.fastPs());
        row.add(delay.slowPs());
    }
}
