using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Goodsheet.App.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class First : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "api_key",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    key_hash = table.Column<string>(type: "text", nullable: false),
                    since = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    revoked_at = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_api_key", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "care_bands",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false),
                    coolest = table.Column<double>(type: "double precision", nullable: false),
                    warmest = table.Column<double>(type: "double precision", nullable: false),
                    driest = table.Column<double>(type: "double precision", nullable: false),
                    dampest = table.Column<double>(type: "double precision", nullable: false),
                    open_days = table.Column<int>(type: "integer", nullable: false),
                    source = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_care_bands", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "care_task",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: true),
                    every_days = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<TimeOnly>(type: "time without time zone", nullable: true),
                    steps = table.Column<string>(type: "text", nullable: false),
                    caution = table.Column<string>(type: "text", nullable: false),
                    against = table.Column<int>(type: "integer", nullable: true),
                    marks = table.Column<int>(type: "integer", nullable: true),
                    last_at = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_care_task", x => x.number);
                });

            migrationBuilder.CreateTable(
                name: "class_rule",
                columns: table => new
                {
                    @class = table.Column<int>(name: "class", type: "integer", nullable: false),
                    coat = table.Column<int>(type: "integer", nullable: true),
                    pigment_bronzes = table.Column<bool>(type: "boolean", nullable: false),
                    warm_base_is_fine = table.Column<bool>(type: "boolean", nullable: false),
                    brush_before_feeding = table.Column<bool>(type: "boolean", nullable: false),
                    least_d_max = table.Column<double>(type: "double precision", nullable: false),
                    good_at = table.Column<string>(type: "text", nullable: false),
                    bad_at = table.Column<string>(type: "text", nullable: false),
                    handling = table.Column<string>(type: "text", nullable: false),
                    usual_feed = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_class_rule", x => x.@class);
                });

            migrationBuilder.CreateTable(
                name: "client",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    contact = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_client", x => x.number);
                });

            migrationBuilder.CreateTable(
                name: "climate_reading",
                columns: table => new
                {
                    at = table.Column<long>(type: "bigint", nullable: false),
                    temperature = table.Column<double>(type: "double precision", nullable: false),
                    humidity = table.Column<double>(type: "double precision", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_climate_reading", x => x.at);
                });

            migrationBuilder.CreateTable(
                name: "command_record",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    content = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_command_record", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "decision",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    about = table.Column<string>(type: "text", nullable: false),
                    what = table.Column<string>(type: "text", nullable: false),
                    why = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_decision", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "edition",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    title = table.Column<string>(type: "text", nullable: false),
                    artist = table.Column<string>(type: "text", nullable: false),
                    year = table.Column<int>(type: "integer", nullable: false),
                    limit = table.Column<int>(type: "integer", nullable: true),
                    artists_proofs = table.Column<int>(type: "integer", nullable: false),
                    printers_proofs = table.Column<int>(type: "integer", nullable: false),
                    hors_commerce = table.Column<int>(type: "integer", nullable: false),
                    sizes_together = table.Column<bool>(type: "boolean", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    issued = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_edition", x => x.number);
                });

            migrationBuilder.CreateTable(
                name: "form_key",
                columns: table => new
                {
                    name = table.Column<string>(type: "text", nullable: false),
                    xml = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_form_key", x => x.name);
                });

            migrationBuilder.CreateTable(
                name: "format",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    is_roll = table.Column<bool>(type: "boolean", nullable: false),
                    width = table.Column<long>(type: "bigint", nullable: false),
                    height = table.Column<long>(type: "bigint", nullable: false),
                    order = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_format", x => x.code);
                });

            migrationBuilder.CreateTable(
                name: "instrument",
                columns: table => new
                {
                    serial = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    tile = table.Column<string>(type: "text", nullable: false),
                    certified_on = table.Column<DateOnly>(type: "date", nullable: true),
                    certificate_months = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_instrument", x => x.serial);
                });

            migrationBuilder.CreateTable(
                name: "intake_settings",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false),
                    picture_folder = table.Column<string>(type: "text", nullable: false),
                    watched_folder = table.Column<string>(type: "text", nullable: false),
                    quiet_seconds = table.Column<int>(type: "integer", nullable: false),
                    client = table.Column<string>(type: "text", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: true),
                    long_side = table.Column<long>(type: "bigint", nullable: false),
                    border = table.Column<long>(type: "bigint", nullable: false),
                    promised_days = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_intake_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "layout_settings",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false),
                    gutter = table.Column<long>(type: "bigint", nullable: false),
                    mix_days = table.Column<int>(type: "integer", nullable: false),
                    least_roll = table.Column<long>(type: "bigint", nullable: false),
                    least_offcut = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_layout_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "paper",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    @class = table.Column<int>(name: "class", type: "integer", nullable: false),
                    @base = table.Column<int>(name: "base", type: "integer", nullable: false),
                    coat = table.Column<int>(type: "integer", nullable: false),
                    coated_sides = table.Column<int>(type: "integer", nullable: false),
                    grammage = table.Column<int>(type: "integer", nullable: false),
                    caliper = table.Column<int>(type: "integer", nullable: true),
                    brightener_declared = table.Column<int>(type: "integer", nullable: true),
                    brightener_measured = table.Column<int>(type: "integer", nullable: true),
                    white_l = table.Column<double>(type: "double precision", nullable: true),
                    white_a = table.Column<double>(type: "double precision", nullable: true),
                    white_b = table.Column<double>(type: "double precision", nullable: true),
                    white_condition = table.Column<string>(type: "text", nullable: true),
                    d_max = table.Column<double>(type: "double precision", nullable: true),
                    gamut_volume = table.Column<double>(type: "double precision", nullable: true),
                    feed = table.Column<int>(type: "integer", nullable: false),
                    drying_hours = table.Column<double>(type: "double precision", nullable: false),
                    one_way = table.Column<bool>(type: "boolean", nullable: false),
                    line_up = table.Column<int>(type: "integer", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_paper", x => x.code);
                });

            migrationBuilder.CreateTable(
                name: "person",
                columns: table => new
                {
                    name = table.Column<string>(type: "text", nullable: false),
                    secret_hash = table.Column<string>(type: "text", nullable: true),
                    guesses = table.Column<int>(type: "integer", nullable: false),
                    locked_until = table.Column<long>(type: "bigint", nullable: true),
                    since = table.Column<long>(type: "bigint", nullable: false),
                    gone = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_person", x => x.name);
                });

            migrationBuilder.CreateTable(
                name: "plan_settings",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false),
                    people = table.Column<int>(type: "integer", nullable: false),
                    dry_places = table.Column<int>(type: "integer", nullable: false),
                    minutes_per_paper_change = table.Column<double>(type: "double precision", nullable: false),
                    minutes_per_load = table.Column<double>(type: "double precision", nullable: false),
                    minutes_per_strip = table.Column<double>(type: "double precision", nullable: false),
                    minutes_per_hour_late = table.Column<double>(type: "double precision", nullable: false),
                    minutes_per_ml = table.Column<double>(type: "double precision", nullable: false),
                    minutes_worth_moving = table.Column<double>(type: "double precision", nullable: false),
                    working_days = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_plan_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "printer",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    inks = table.Column<int>(type: "integer", nullable: false),
                    blacks_share_a_line = table.Column<bool>(type: "boolean", nullable: false),
                    minutes_to_photo = table.Column<double>(type: "double precision", nullable: false),
                    ml_to_photo = table.Column<double>(type: "double precision", nullable: false),
                    minutes_to_matte = table.Column<double>(type: "double precision", nullable: false),
                    ml_to_matte = table.Column<double>(type: "double precision", nullable: false),
                    width = table.Column<long>(type: "bigint", nullable: false),
                    feed_paths = table.Column<int>(type: "integer", nullable: false),
                    ppi = table.Column<int>(type: "integer", nullable: false),
                    margin = table.Column<long>(type: "bigint", nullable: false),
                    square_metres_per_hour = table.Column<double>(type: "double precision", nullable: false),
                    firmware = table.Column<string>(type: "text", nullable: false),
                    driver = table.Column<string>(type: "text", nullable: false),
                    hand_over = table.Column<int>(type: "integer", nullable: false),
                    address = table.Column<string>(type: "text", nullable: false),
                    eight_bits = table.Column<bool>(type: "boolean", nullable: false),
                    gone = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_printer", x => x.code);
                });

            migrationBuilder.CreateTable(
                name: "rates",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: false),
                    currency = table.Column<string>(type: "text", nullable: false),
                    ink_per_ml = table.Column<decimal>(type: "numeric", nullable: false),
                    ml_per_square_metre = table.Column<decimal>(type: "numeric", nullable: false),
                    purge_share = table.Column<decimal>(type: "numeric", nullable: false),
                    printer_per_minute = table.Column<decimal>(type: "numeric", nullable: false),
                    person_per_minute = table.Column<decimal>(type: "numeric", nullable: false),
                    person_minutes_per_print = table.Column<decimal>(type: "numeric", nullable: false),
                    spoil_rate = table.Column<decimal>(type: "numeric", nullable: false),
                    overhead = table.Column<decimal>(type: "numeric", nullable: false),
                    margin = table.Column<decimal>(type: "numeric", nullable: false),
                    minimum_charge = table.Column<decimal>(type: "numeric", nullable: false),
                    round_up_to = table.Column<decimal>(type: "numeric", nullable: false),
                    tax_name = table.Column<string>(type: "text", nullable: false),
                    tax = table.Column<decimal>(type: "numeric", nullable: false),
                    steps = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_rates", x => x.number);
                });

            migrationBuilder.CreateTable(
                name: "register_key",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    made_at = table.Column<long>(type: "bigint", nullable: false),
                    @public = table.Column<byte[]>(name: "public", type: "bytea", nullable: false),
                    @private = table.Column<byte[]>(name: "private", type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_register_key", x => x.number);
                });

            migrationBuilder.CreateTable(
                name: "room_settings",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    is_demo = table.Column<bool>(type: "boolean", nullable: false),
                    time_zone = table.Column<string>(type: "text", nullable: false),
                    culture = table.Column<string>(type: "text", nullable: false),
                    address = table.Column<string>(type: "text", nullable: true),
                    opens = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    closes = table.Column<TimeOnly>(type: "time without time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_room_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "supplier",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    time_zone = table.Column<string>(type: "text", nullable: false),
                    working_days = table.Column<int>(type: "integer", nullable: false),
                    delivery_days = table.Column<int>(type: "integer", nullable: false),
                    holidays = table.Column<string>(type: "text", nullable: true),
                    minimum_order = table.Column<decimal>(type: "numeric", nullable: false),
                    carriage_free_from = table.Column<decimal>(type: "numeric", nullable: true),
                    carriage = table.Column<decimal>(type: "numeric", nullable: false),
                    email = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_supplier", x => x.code);
                });

            migrationBuilder.CreateTable(
                name: "tolerance",
                columns: table => new
                {
                    name = table.Column<string>(type: "text", nullable: false),
                    mean = table.Column<double>(type: "double precision", nullable: false),
                    largest = table.Column<double>(type: "double precision", nullable: false),
                    white = table.Column<double>(type: "double precision", nullable: false),
                    greys = table.Column<double>(type: "double precision", nullable: false),
                    source = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_tolerance", x => x.name);
                });

            migrationBuilder.CreateTable(
                name: "work_record",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    about = table.Column<string>(type: "text", nullable: false),
                    asked = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    state = table.Column<int>(type: "integer", nullable: false),
                    percent = table.Column<int>(type: "integer", nullable: false),
                    starts = table.Column<int>(type: "integer", nullable: false),
                    result = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_work_record", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "care_done",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    task = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_care_done", x => x.id);
                    table.ForeignKey(
                        name: "FK_care_done_care_task_task",
                        column: x => x.task,
                        principalTable: "care_task",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "order",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    client = table.Column<int>(type: "integer", nullable: false),
                    taken_at = table.Column<long>(type: "bigint", nullable: false),
                    taken_by = table.Column<string>(type: "text", nullable: false),
                    promised = table.Column<long>(type: "bigint", nullable: false),
                    state = table.Column<int>(type: "integer", nullable: false),
                    state_why = table.Column<string>(type: "text", nullable: false),
                    asks = table.Column<int>(type: "integer", nullable: false),
                    approved_at = table.Column<long>(type: "bigint", nullable: true),
                    deposit = table.Column<decimal>(type: "numeric", nullable: false),
                    reference = table.Column<string>(type: "text", nullable: false),
                    @out = table.Column<int>(name: "out", type: "integer", nullable: false),
                    packed = table.Column<int>(type: "integer", nullable: false),
                    out_at = table.Column<long>(type: "bigint", nullable: true),
                    remake_of = table.Column<int>(type: "integer", nullable: true),
                    note = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order", x => x.number);
                    table.ForeignKey(
                        name: "FK_order_client_client",
                        column: x => x.client,
                        principalTable: "client",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tile_reading",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    instrument = table.Column<string>(type: "text", nullable: false),
                    l = table.Column<double>(type: "double precision", nullable: false),
                    a = table.Column<double>(type: "double precision", nullable: false),
                    b = table.Column<double>(type: "double precision", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_tile_reading", x => x.id);
                    table.ForeignKey(
                        name: "FK_tile_reading_instrument_instrument",
                        column: x => x.instrument,
                        principalTable: "instrument",
                        principalColumn: "serial",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bench_test",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    verdict = table.Column<int>(type: "integer", nullable: false),
                    value = table.Column<double>(type: "double precision", nullable: true),
                    note = table.Column<string>(type: "text", nullable: false),
                    photo = table.Column<string>(type: "text", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bench_test", x => x.id);
                    table.ForeignKey(
                        name: "FK_bench_test_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "client_price",
                columns: table => new
                {
                    client = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: false),
                    per_square_metre = table.Column<decimal>(type: "numeric", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_client_price", x => new { x.client, x.paper, x.from });
                    table.ForeignKey(
                        name: "FK_client_price_client_client",
                        column: x => x.client,
                        principalTable: "client",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_client_price_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "numbered_print",
                columns: table => new
                {
                    edition = table.Column<int>(type: "integer", nullable: false),
                    counted = table.Column<string>(type: "text", nullable: false),
                    series = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    replacement = table.Column<int>(type: "integer", nullable: false),
                    code = table.Column<string>(type: "text", nullable: false),
                    image_width = table.Column<long>(type: "bigint", nullable: false),
                    image_height = table.Column<long>(type: "bigint", nullable: false),
                    sheet_width = table.Column<long>(type: "bigint", nullable: false),
                    sheet_height = table.Column<long>(type: "bigint", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    paper_name = table.Column<string>(type: "text", nullable: false),
                    ink = table.Column<string>(type: "text", nullable: false),
                    printed_on = table.Column<DateOnly>(type: "date", nullable: false),
                    run = table.Column<int>(type: "integer", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    signature = table.Column<string>(type: "text", nullable: false),
                    destroyed_at = table.Column<long>(type: "bigint", nullable: true),
                    destroyed_by = table.Column<string>(type: "text", nullable: true),
                    destroyed_why = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_numbered_print", x => new { x.edition, x.counted, x.series, x.number, x.replacement });
                    table.ForeignKey(
                        name: "FK_numbered_print_edition_edition",
                        column: x => x.edition,
                        principalTable: "edition",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_numbered_print_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "paper_price",
                columns: table => new
                {
                    paper = table.Column<string>(type: "text", nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: false),
                    per_square_metre = table.Column<decimal>(type: "numeric", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_paper_price", x => new { x.paper, x.from });
                    table.ForeignKey(
                        name: "FK_paper_price_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "device",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    how = table.Column<int>(type: "integer", nullable: false),
                    token_hash = table.Column<string>(type: "text", nullable: false),
                    person = table.Column<string>(type: "text", nullable: false),
                    since = table.Column<long>(type: "bigint", nullable: false),
                    until = table.Column<long>(type: "bigint", nullable: false),
                    revoked_at = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_device", x => x.id);
                    table.ForeignKey(
                        name: "FK_device_person_person",
                        column: x => x.person,
                        principalTable: "person",
                        principalColumn: "name",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pairing_code",
                columns: table => new
                {
                    code_hash = table.Column<string>(type: "text", nullable: false),
                    person = table.Column<string>(type: "text", nullable: false),
                    until = table.Column<long>(type: "bigint", nullable: false),
                    tries = table.Column<int>(type: "integer", nullable: false),
                    used = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pairing_code", x => x.code_hash);
                    table.ForeignKey(
                        name: "FK_pairing_code_person_person",
                        column: x => x.person,
                        principalTable: "person",
                        principalColumn: "name",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "feed_margins",
                columns: table => new
                {
                    printer = table.Column<string>(type: "text", nullable: false),
                    feed = table.Column<int>(type: "integer", nullable: false),
                    left = table.Column<long>(type: "bigint", nullable: false),
                    right = table.Column<long>(type: "bigint", nullable: false),
                    lead = table.Column<long>(type: "bigint", nullable: false),
                    tail = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_feed_margins", x => new { x.printer, x.feed });
                    table.ForeignKey(
                        name: "FK_feed_margins_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "printer_event",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_printer_event", x => x.id);
                    table.ForeignKey(
                        name: "FK_printer_event_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "setting_trial",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: false),
                    media_setting = table.Column<string>(type: "text", nullable: false),
                    ink_load = table.Column<int>(type: "integer", nullable: false),
                    platen_gap = table.Column<string>(type: "text", nullable: false),
                    seen = table.Column<int>(type: "integer", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: true),
                    d_max = table.Column<double>(type: "double precision", nullable: true),
                    solids = table.Column<double>(type: "double precision", nullable: true),
                    steps_back = table.Column<double>(type: "double precision", nullable: true),
                    grain = table.Column<double>(type: "double precision", nullable: true),
                    chosen_at = table.Column<long>(type: "bigint", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_setting_trial", x => x.id);
                    table.ForeignKey(
                        name: "FK_setting_trial_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_setting_trial_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "consumable",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: true),
                    channel = table.Column<string>(type: "text", nullable: false),
                    millilitres = table.Column<double>(type: "double precision", nullable: false),
                    reorder_at = table.Column<long>(type: "bigint", nullable: false),
                    price = table.Column<decimal>(type: "numeric", nullable: true),
                    place = table.Column<string>(type: "text", nullable: false),
                    supplier = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_consumable", x => x.code);
                    table.ForeignKey(
                        name: "FK_consumable_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_consumable_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "dispatch",
                columns: table => new
                {
                    supplier = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    cut_off = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    lead_days = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_dispatch", x => new { x.supplier, x.name });
                    table.ForeignKey(
                        name: "FK_dispatch_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "item",
                columns: table => new
                {
                    paper = table.Column<string>(type: "text", nullable: false),
                    format = table.Column<string>(type: "text", nullable: false),
                    pack_size = table.Column<long>(type: "bigint", nullable: false),
                    reserve = table.Column<long>(type: "bigint", nullable: false),
                    place = table.Column<string>(type: "text", nullable: false),
                    supplier = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_item", x => new { x.paper, x.format });
                    table.ForeignKey(
                        name: "FK_item_format_format",
                        column: x => x.format,
                        principalTable: "format",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_item_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_item_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "purchase_order",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    supplier = table.Column<string>(type: "text", nullable: false),
                    way = table.Column<string>(type: "text", nullable: false),
                    state = table.Column<int>(type: "integer", nullable: false),
                    proposed_at = table.Column<long>(type: "bigint", nullable: false),
                    sent_at = table.Column<long>(type: "bigint", nullable: true),
                    sent_by = table.Column<string>(type: "text", nullable: true),
                    promised_on = table.Column<DateOnly>(type: "date", nullable: true),
                    came_on = table.Column<DateOnly>(type: "date", nullable: true),
                    ended_why = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_purchase_order", x => x.number);
                    table.ForeignKey(
                        name: "FK_purchase_order_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "supplier_closure",
                columns: table => new
                {
                    supplier = table.Column<string>(type: "text", nullable: false),
                    day = table.Column<DateOnly>(type: "date", nullable: false),
                    why = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_supplier_closure", x => new { x.supplier, x.day });
                    table.ForeignKey(
                        name: "FK_supplier_closure_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "printing_condition",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    media_setting = table.Column<string>(type: "text", nullable: false),
                    ppi = table.Column<int>(type: "integer", nullable: false),
                    black = table.Column<int>(type: "integer", nullable: false),
                    tolerance = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_printing_condition", x => x.code);
                    table.ForeignKey(
                        name: "FK_printing_condition_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_printing_condition_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_printing_condition_tolerance_tolerance",
                        column: x => x.tolerance,
                        principalTable: "tolerance",
                        principalColumn: "name",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "finish_step",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    done_at = table.Column<long>(type: "bigint", nullable: true),
                    done_by = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_finish_step", x => new { x.order, x.number });
                    table.ForeignKey(
                        name: "FK_finish_step_order_order",
                        column: x => x.order,
                        principalTable: "order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "order_fact",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    by_client = table.Column<string>(type: "text", nullable: false),
                    files = table.Column<string>(type: "text", nullable: false),
                    proof = table.Column<string>(type: "text", nullable: false),
                    amount = table.Column<decimal>(type: "numeric", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order_fact", x => new { x.order, x.number });
                    table.ForeignKey(
                        name: "FK_order_fact_order_order",
                        column: x => x.order,
                        principalTable: "order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "order_quote",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    currency = table.Column<string>(type: "text", nullable: false),
                    cost = table.Column<decimal>(type: "numeric", nullable: false),
                    net = table.Column<decimal>(type: "numeric", nullable: false),
                    tax = table.Column<decimal>(type: "numeric", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order_quote", x => new { x.order, x.number });
                    table.ForeignKey(
                        name: "FK_order_quote_order_order",
                        column: x => x.order,
                        principalTable: "order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "print_line",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    title = table.Column<string>(type: "text", nullable: false),
                    image_hash = table.Column<string>(type: "text", nullable: false),
                    image_name = table.Column<string>(type: "text", nullable: false),
                    pixels_wide = table.Column<int>(type: "integer", nullable: false),
                    pixels_high = table.Column<int>(type: "integer", nullable: false),
                    width = table.Column<long>(type: "bigint", nullable: false),
                    height = table.Column<long>(type: "bigint", nullable: false),
                    border = table.Column<long>(type: "bigint", nullable: false),
                    edge = table.Column<int>(type: "integer", nullable: false),
                    around = table.Column<long>(type: "bigint", nullable: false),
                    command = table.Column<Guid>(type: "uuid", nullable: true),
                    paper = table.Column<string>(type: "text", nullable: false),
                    copies = table.Column<int>(type: "integer", nullable: false),
                    intent = table.Column<int>(type: "integer", nullable: false),
                    black_point_compensation = table.Column<bool>(type: "boolean", nullable: false),
                    viewing_distance = table.Column<long>(type: "bigint", nullable: false),
                    may_turn = table.Column<bool>(type: "boolean", nullable: false),
                    goes_along = table.Column<bool>(type: "boolean", nullable: false),
                    strip_first = table.Column<bool>(type: "boolean", nullable: false),
                    good = table.Column<int>(type: "integer", nullable: false),
                    wasted = table.Column<int>(type: "integer", nullable: false),
                    prepared_hash = table.Column<string>(type: "text", nullable: true),
                    recipe = table.Column<string>(type: "text", nullable: true),
                    work = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_print_line", x => new { x.order, x.line });
                    table.ForeignKey(
                        name: "FK_print_line_order_order",
                        column: x => x.order,
                        principalTable: "order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_print_line_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "consumable_lot",
                columns: table => new
                {
                    consumable = table.Column<string>(type: "text", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    received = table.Column<DateOnly>(type: "date", nullable: false),
                    best_before = table.Column<DateOnly>(type: "date", nullable: true),
                    makers_number = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_consumable_lot", x => new { x.consumable, x.number });
                    table.ForeignKey(
                        name: "FK_consumable_lot_consumable_consumable",
                        column: x => x.consumable,
                        principalTable: "consumable",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "lot",
                columns: table => new
                {
                    code = table.Column<string>(type: "text", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    format = table.Column<string>(type: "text", nullable: false),
                    received = table.Column<DateOnly>(type: "date", nullable: false),
                    best_before = table.Column<DateOnly>(type: "date", nullable: true),
                    extended_to = table.Column<DateOnly>(type: "date", nullable: true),
                    opened = table.Column<DateOnly>(type: "date", nullable: true),
                    place = table.Column<string>(type: "text", nullable: false),
                    condition = table.Column<int>(type: "integer", nullable: false),
                    condition_why = table.Column<string>(type: "text", nullable: true),
                    supplier = table.Column<string>(type: "text", nullable: true),
                    makers_number = table.Column<string>(type: "text", nullable: true),
                    cut_from = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lot", x => x.code);
                    table.ForeignKey(
                        name: "FK_lot_item_paper_format",
                        columns: x => new { x.paper, x.format },
                        principalTable: "item",
                        principalColumns: new[] { "paper", "format" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "price_line",
                columns: table => new
                {
                    supplier = table.Column<string>(type: "text", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    format = table.Column<string>(type: "text", nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: false),
                    from_packs = table.Column<int>(type: "integer", nullable: false),
                    pack_size = table.Column<long>(type: "bigint", nullable: false),
                    price = table.Column<decimal>(type: "numeric", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_price_line", x => new { x.supplier, x.paper, x.format, x.from, x.from_packs });
                    table.ForeignKey(
                        name: "FK_price_line_item_paper_format",
                        columns: x => new { x.paper, x.format },
                        principalTable: "item",
                        principalColumns: new[] { "paper", "format" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_price_line_supplier_supplier",
                        column: x => x.supplier,
                        principalTable: "supplier",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "delivery",
                columns: table => new
                {
                    supplier = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    order = table.Column<int>(type: "integer", nullable: false),
                    came_on = table.Column<DateOnly>(type: "date", nullable: false),
                    days_late = table.Column<int>(type: "integer", nullable: false),
                    complete = table.Column<bool>(type: "boolean", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_delivery", x => new { x.supplier, x.note });
                    table.ForeignKey(
                        name: "FK_delivery_purchase_order_order",
                        column: x => x.order,
                        principalTable: "purchase_order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pieces_line",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    consumable = table.Column<string>(type: "text", nullable: false),
                    pieces = table.Column<int>(type: "integer", nullable: false),
                    price = table.Column<decimal>(type: "numeric", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: false),
                    came = table.Column<long>(type: "bigint", nullable: false),
                    came_damaged = table.Column<long>(type: "bigint", nullable: false),
                    came_wrong = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pieces_line", x => new { x.order, x.line });
                    table.ForeignKey(
                        name: "FK_pieces_line_consumable_consumable",
                        column: x => x.consumable,
                        principalTable: "consumable",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_pieces_line_purchase_order_order",
                        column: x => x.order,
                        principalTable: "purchase_order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "purchase_line",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    format = table.Column<string>(type: "text", nullable: false),
                    packs = table.Column<int>(type: "integer", nullable: false),
                    pack_size = table.Column<long>(type: "bigint", nullable: false),
                    price = table.Column<decimal>(type: "numeric", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: false),
                    came = table.Column<long>(type: "bigint", nullable: false),
                    came_damaged = table.Column<long>(type: "bigint", nullable: false),
                    came_wrong = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_purchase_line", x => new { x.order, x.line });
                    table.ForeignKey(
                        name: "FK_purchase_line_item_paper_format",
                        columns: x => new { x.paper, x.format },
                        principalTable: "item",
                        principalColumns: new[] { "paper", "format" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_purchase_line_purchase_order_order",
                        column: x => x.order,
                        principalTable: "purchase_order",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "fingerprint",
                columns: table => new
                {
                    condition = table.Column<string>(type: "text", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    firmware = table.Column<string>(type: "text", nullable: false),
                    driver = table.Column<string>(type: "text", nullable: false),
                    system = table.Column<string>(type: "text", nullable: false),
                    ink = table.Column<string>(type: "text", nullable: false),
                    paper_lot = table.Column<string>(type: "text", nullable: true),
                    ink_load = table.Column<int>(type: "integer", nullable: false),
                    platen_gap = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    changed = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_fingerprint", x => new { x.condition, x.number });
                    table.ForeignKey(
                        name: "FK_fingerprint_printing_condition_condition",
                        column: x => x.condition,
                        principalTable: "printing_condition",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "complaint",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    what = table.Column<string>(type: "text", nullable: false),
                    pays = table.Column<int>(type: "integer", nullable: false),
                    came_back = table.Column<bool>(type: "boolean", nullable: false),
                    photographs = table.Column<string[]>(type: "text[]", nullable: false),
                    remake = table.Column<int>(type: "integer", nullable: true),
                    settled_at = table.Column<long>(type: "bigint", nullable: true),
                    settled_how = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_complaint", x => x.number);
                    table.ForeignKey(
                        name: "FK_complaint_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "finding",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    severity = table.Column<int>(type: "integer", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    help = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_finding", x => new { x.order, x.line, x.number });
                    table.ForeignKey(
                        name: "FK_finding_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "proof_sheet",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    what = table.Column<string>(type: "text", nullable: false),
                    profile = table.Column<int>(type: "integer", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_proof_sheet", x => new { x.order, x.line, x.number });
                    table.ForeignKey(
                        name: "FK_proof_sheet_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "test_strip",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    x = table.Column<long>(type: "bigint", nullable: false),
                    y = table.Column<long>(type: "bigint", nullable: false),
                    width = table.Column<long>(type: "bigint", nullable: false),
                    height = table.Column<long>(type: "bigint", nullable: false),
                    place = table.Column<int>(type: "integer", nullable: false),
                    profile = table.Column<int>(type: "integer", nullable: false),
                    recipe = table.Column<string>(type: "text", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    lot = table.Column<string>(type: "text", nullable: true),
                    printed_at = table.Column<long>(type: "bigint", nullable: true),
                    says = table.Column<int>(type: "integer", nullable: false),
                    why = table.Column<string>(type: "text", nullable: false),
                    said_at = table.Column<long>(type: "bigint", nullable: true),
                    said_by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_test_strip", x => new { x.order, x.line, x.number });
                    table.ForeignKey(
                        name: "FK_test_strip_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "tile_set",
                columns: table => new
                {
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    paper_width = table.Column<long>(type: "bigint", nullable: false),
                    paper_length = table.Column<long>(type: "bigint", nullable: true),
                    overlap = table.Column<long>(type: "bigint", nullable: false),
                    profile = table.Column<int>(type: "integer", nullable: false),
                    recipe = table.Column<string>(type: "text", nullable: false),
                    files = table.Column<string[]>(type: "text[]", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_tile_set", x => new { x.order, x.line, x.number });
                    table.ForeignKey(
                        name: "FK_tile_set_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "consumable_move",
                columns: table => new
                {
                    consumable = table.Column<string>(type: "text", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    command = table.Column<Guid>(type: "uuid", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    lot = table.Column<int>(type: "integer", nullable: false),
                    from = table.Column<string>(type: "text", nullable: false),
                    to = table.Column<string>(type: "text", nullable: false),
                    quantity = table.Column<long>(type: "bigint", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_consumable_move", x => new { x.consumable, x.number });
                    table.CheckConstraint("consumable_move_goes_somewhere", "\"from\" <> \"to\"");
                    table.CheckConstraint("consumable_move_has_quantity", "quantity > 0");
                    table.ForeignKey(
                        name: "FK_consumable_move_command_record_command",
                        column: x => x.command,
                        principalTable: "command_record",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_consumable_move_consumable_lot_consumable_lot",
                        columns: x => new { x.consumable, x.lot },
                        principalTable: "consumable_lot",
                        principalColumns: new[] { "consumable", "number" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "loaded",
                columns: table => new
                {
                    printer = table.Column<string>(type: "text", nullable: false),
                    lot = table.Column<string>(type: "text", nullable: true),
                    black = table.Column<int>(type: "integer", nullable: false),
                    media_setting = table.Column<string>(type: "text", nullable: false),
                    since = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_loaded", x => x.printer);
                    table.ForeignKey(
                        name: "FK_loaded_lot_lot",
                        column: x => x.lot,
                        principalTable: "lot",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_loaded_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "lot_balance",
                columns: table => new
                {
                    lot = table.Column<string>(type: "text", nullable: false),
                    through = table.Column<int>(type: "integer", nullable: false),
                    on_shelf = table.Column<long>(type: "bigint", nullable: false),
                    at_printers = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lot_balance", x => x.lot);
                    table.ForeignKey(
                        name: "FK_lot_balance_lot_lot",
                        column: x => x.lot,
                        principalTable: "lot",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "move",
                columns: table => new
                {
                    lot = table.Column<string>(type: "text", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    command = table.Column<Guid>(type: "uuid", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    from = table.Column<string>(type: "text", nullable: false),
                    to = table.Column<string>(type: "text", nullable: false),
                    quantity = table.Column<long>(type: "bigint", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: true),
                    reference = table.Column<string>(type: "text", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_move", x => new { x.lot, x.number });
                    table.CheckConstraint("move_goes_somewhere", "\"from\" <> \"to\"");
                    table.CheckConstraint("move_has_quantity", "quantity > 0");
                    table.ForeignKey(
                        name: "FK_move_command_record_command",
                        column: x => x.command,
                        principalTable: "command_record",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_move_lot_lot",
                        column: x => x.lot,
                        principalTable: "lot",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reading",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    condition = table.Column<string>(type: "text", nullable: true),
                    file_name = table.Column<string>(type: "text", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    m_condition = table.Column<string>(type: "text", nullable: false),
                    patches = table.Column<int>(type: "integer", nullable: false),
                    instrument = table.Column<string>(type: "text", nullable: false),
                    lot = table.Column<string>(type: "text", nullable: true),
                    hours_after = table.Column<double>(type: "double precision", nullable: true),
                    over_black = table.Column<bool>(type: "boolean", nullable: false),
                    figures = table.Column<string>(type: "text", nullable: true),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    findings = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_reading", x => x.number);
                    table.ForeignKey(
                        name: "FK_reading_lot_lot",
                        column: x => x.lot,
                        principalTable: "lot",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_reading_paper_paper",
                        column: x => x.paper,
                        principalTable: "paper",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_reading_printing_condition_condition",
                        column: x => x.condition,
                        principalTable: "printing_condition",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "profile",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    condition = table.Column<string>(type: "text", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    made_from = table.Column<int>(type: "integer", nullable: true),
                    made_at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    standing = table.Column<int>(type: "integer", nullable: false),
                    standing_why = table.Column<string>(type: "text", nullable: false),
                    mean_error = table.Column<double>(type: "double precision", nullable: true),
                    p95_error = table.Column<double>(type: "double precision", nullable: true),
                    max_error = table.Column<double>(type: "double precision", nullable: true),
                    gamut_volume = table.Column<double>(type: "double precision", nullable: true),
                    worth = table.Column<string>(type: "text", nullable: true),
                    checked_at = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_profile", x => x.number);
                    table.ForeignKey(
                        name: "FK_profile_printing_condition_condition",
                        column: x => x.condition,
                        principalTable: "printing_condition",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_profile_reading_made_from",
                        column: x => x.made_from,
                        principalTable: "reading",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "run",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    printer = table.Column<string>(type: "text", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    format = table.Column<string>(type: "text", nullable: false),
                    condition = table.Column<string>(type: "text", nullable: false),
                    profile = table.Column<int>(type: "integer", nullable: false),
                    black = table.Column<int>(type: "integer", nullable: false),
                    state = table.Column<int>(type: "integer", nullable: false),
                    planned_at = table.Column<long>(type: "bigint", nullable: false),
                    planned_minutes = table.Column<double>(type: "double precision", nullable: false),
                    began_at = table.Column<long>(type: "bigint", nullable: true),
                    ended_at = table.Column<long>(type: "bigint", nullable: true),
                    lot = table.Column<string>(type: "text", nullable: true),
                    needs = table.Column<long>(type: "bigint", nullable: false),
                    layout = table.Column<string>(type: "text", nullable: false),
                    decision = table.Column<Guid>(type: "uuid", nullable: true),
                    ml_of_ink = table.Column<double>(type: "double precision", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_run", x => x.number);
                    table.ForeignKey(
                        name: "FK_run_item_paper_format",
                        columns: x => new { x.paper, x.format },
                        principalTable: "item",
                        principalColumns: new[] { "paper", "format" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_run_printer_printer",
                        column: x => x.printer,
                        principalTable: "printer",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_run_printing_condition_condition",
                        column: x => x.condition,
                        principalTable: "printing_condition",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_run_profile_profile",
                        column: x => x.profile,
                        principalTable: "profile",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "strip_reading",
                columns: table => new
                {
                    number = table.Column<int>(type: "integer", nullable: false),
                    profile = table.Column<int>(type: "integer", nullable: false),
                    reading = table.Column<int>(type: "integer", nullable: true),
                    mean_error = table.Column<double>(type: "double precision", nullable: false),
                    max_error = table.Column<double>(type: "double precision", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false),
                    file_name = table.Column<string>(type: "text", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    patches = table.Column<int>(type: "integer", nullable: false),
                    shift_l = table.Column<double>(type: "double precision", nullable: false),
                    shift_a = table.Column<double>(type: "double precision", nullable: false),
                    shift_b = table.Column<double>(type: "double precision", nullable: false),
                    shape = table.Column<double>(type: "double precision", nullable: false),
                    verdict = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_strip_reading", x => x.number);
                    table.ForeignKey(
                        name: "FK_strip_reading_profile_profile",
                        column: x => x.profile,
                        principalTable: "profile",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "layout_step",
                columns: table => new
                {
                    run = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    by = table.Column<string>(type: "text", nullable: false),
                    what = table.Column<string>(type: "text", nullable: false),
                    layout = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_layout_step", x => new { x.run, x.number });
                    table.ForeignKey(
                        name: "FK_layout_step_run_run",
                        column: x => x.run,
                        principalTable: "run",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "run_print",
                columns: table => new
                {
                    run = table.Column<int>(type: "integer", nullable: false),
                    order = table.Column<int>(type: "integer", nullable: false),
                    line = table.Column<int>(type: "integer", nullable: false),
                    copies = table.Column<int>(type: "integer", nullable: false),
                    good = table.Column<int>(type: "integer", nullable: false),
                    wasted = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_run_print", x => new { x.run, x.order, x.line });
                    table.ForeignKey(
                        name: "FK_run_print_print_line_order_line",
                        columns: x => new { x.order, x.line },
                        principalTable: "print_line",
                        principalColumns: new[] { "order", "line" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_run_print_run_run",
                        column: x => x.run,
                        principalTable: "run",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "run_sheet",
                columns: table => new
                {
                    run = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    copies = table.Column<int>(type: "integer", nullable: false),
                    file_hash = table.Column<string>(type: "text", nullable: false),
                    width = table.Column<int>(type: "integer", nullable: false),
                    height = table.Column<int>(type: "integer", nullable: false),
                    sent_to = table.Column<string>(type: "text", nullable: false),
                    sent_at = table.Column<long>(type: "bigint", nullable: true),
                    sent_by = table.Column<string>(type: "text", nullable: false),
                    job = table.Column<int>(type: "integer", nullable: true),
                    times = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_run_sheet", x => new { x.run, x.number });
                    table.ForeignKey(
                        name: "FK_run_sheet_run_run",
                        column: x => x.run,
                        principalTable: "run",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "run_waste",
                columns: table => new
                {
                    run = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    cause = table.Column<int>(type: "integer", nullable: false),
                    prints = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<long>(type: "bigint", nullable: false),
                    at = table.Column<long>(type: "bigint", nullable: false),
                    note = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_run_waste", x => new { x.run, x.number });
                    table.ForeignKey(
                        name: "FK_run_waste_run_run",
                        column: x => x.run,
                        principalTable: "run",
                        principalColumn: "number",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_api_key_key_hash",
                table: "api_key",
                column: "key_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_bench_test_paper",
                table: "bench_test",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_care_done_task",
                table: "care_done",
                column: "task");

            migrationBuilder.CreateIndex(
                name: "IX_client_name",
                table: "client",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_client_price_paper",
                table: "client_price",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_complaint_order_line",
                table: "complaint",
                columns: new[] { "order", "line" });

            migrationBuilder.CreateIndex(
                name: "IX_consumable_printer",
                table: "consumable",
                column: "printer");

            migrationBuilder.CreateIndex(
                name: "IX_consumable_supplier",
                table: "consumable",
                column: "supplier");

            migrationBuilder.CreateIndex(
                name: "IX_consumable_move_command_consumable_line",
                table: "consumable_move",
                columns: new[] { "command", "consumable", "line" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_consumable_move_consumable_lot",
                table: "consumable_move",
                columns: new[] { "consumable", "lot" });

            migrationBuilder.CreateIndex(
                name: "IX_decision_about",
                table: "decision",
                column: "about");

            migrationBuilder.CreateIndex(
                name: "IX_delivery_order",
                table: "delivery",
                column: "order");

            migrationBuilder.CreateIndex(
                name: "IX_device_person",
                table: "device",
                column: "person");

            migrationBuilder.CreateIndex(
                name: "IX_device_token_hash",
                table: "device",
                column: "token_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_edition_title_artist",
                table: "edition",
                columns: new[] { "title", "artist" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_item_format",
                table: "item",
                column: "format");

            migrationBuilder.CreateIndex(
                name: "IX_item_supplier",
                table: "item",
                column: "supplier");

            migrationBuilder.CreateIndex(
                name: "IX_loaded_lot",
                table: "loaded",
                column: "lot");

            migrationBuilder.CreateIndex(
                name: "IX_lot_paper_format",
                table: "lot",
                columns: new[] { "paper", "format" });

            migrationBuilder.CreateIndex(
                name: "IX_move_at",
                table: "move",
                column: "at");

            migrationBuilder.CreateIndex(
                name: "IX_move_command_line",
                table: "move",
                columns: new[] { "command", "line" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_move_reference",
                table: "move",
                column: "reference");

            migrationBuilder.CreateIndex(
                name: "IX_numbered_print_code",
                table: "numbered_print",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_numbered_print_paper",
                table: "numbered_print",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_order_client_reference",
                table: "order",
                columns: new[] { "client", "reference" });

            migrationBuilder.CreateIndex(
                name: "IX_order_state_promised",
                table: "order",
                columns: new[] { "state", "promised" });

            migrationBuilder.CreateIndex(
                name: "IX_pairing_code_person",
                table: "pairing_code",
                column: "person");

            migrationBuilder.CreateIndex(
                name: "IX_pieces_line_consumable",
                table: "pieces_line",
                column: "consumable");

            migrationBuilder.CreateIndex(
                name: "IX_price_line_paper_format",
                table: "price_line",
                columns: new[] { "paper", "format" });

            migrationBuilder.CreateIndex(
                name: "IX_print_line_command",
                table: "print_line",
                column: "command");

            migrationBuilder.CreateIndex(
                name: "IX_print_line_paper",
                table: "print_line",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_printer_event_printer",
                table: "printer_event",
                column: "printer");

            migrationBuilder.CreateIndex(
                name: "IX_printing_condition_paper",
                table: "printing_condition",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_printing_condition_printer",
                table: "printing_condition",
                column: "printer");

            migrationBuilder.CreateIndex(
                name: "IX_printing_condition_tolerance",
                table: "printing_condition",
                column: "tolerance");

            migrationBuilder.CreateIndex(
                name: "IX_profile_condition_version",
                table: "profile",
                columns: new[] { "condition", "version" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_profile_made_from",
                table: "profile",
                column: "made_from");

            migrationBuilder.CreateIndex(
                name: "IX_purchase_line_paper_format",
                table: "purchase_line",
                columns: new[] { "paper", "format" });

            migrationBuilder.CreateIndex(
                name: "IX_purchase_order_state",
                table: "purchase_order",
                column: "state");

            migrationBuilder.CreateIndex(
                name: "IX_purchase_order_supplier",
                table: "purchase_order",
                column: "supplier");

            migrationBuilder.CreateIndex(
                name: "IX_reading_condition",
                table: "reading",
                column: "condition");

            migrationBuilder.CreateIndex(
                name: "IX_reading_lot",
                table: "reading",
                column: "lot");

            migrationBuilder.CreateIndex(
                name: "IX_reading_paper",
                table: "reading",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_run_condition",
                table: "run",
                column: "condition");

            migrationBuilder.CreateIndex(
                name: "IX_run_paper_format",
                table: "run",
                columns: new[] { "paper", "format" });

            migrationBuilder.CreateIndex(
                name: "IX_run_printer",
                table: "run",
                column: "printer");

            migrationBuilder.CreateIndex(
                name: "IX_run_profile",
                table: "run",
                column: "profile");

            migrationBuilder.CreateIndex(
                name: "IX_run_state",
                table: "run",
                column: "state");

            migrationBuilder.CreateIndex(
                name: "IX_run_print_order_line",
                table: "run_print",
                columns: new[] { "order", "line" });

            migrationBuilder.CreateIndex(
                name: "IX_setting_trial_paper",
                table: "setting_trial",
                column: "paper");

            migrationBuilder.CreateIndex(
                name: "IX_setting_trial_printer",
                table: "setting_trial",
                column: "printer");

            migrationBuilder.CreateIndex(
                name: "IX_strip_reading_profile",
                table: "strip_reading",
                column: "profile");

            migrationBuilder.CreateIndex(
                name: "IX_tile_reading_instrument",
                table: "tile_reading",
                column: "instrument");

            migrationBuilder.CreateIndex(
                name: "IX_work_record_state",
                table: "work_record",
                column: "state");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "api_key");

            migrationBuilder.DropTable(
                name: "bench_test");

            migrationBuilder.DropTable(
                name: "care_bands");

            migrationBuilder.DropTable(
                name: "care_done");

            migrationBuilder.DropTable(
                name: "class_rule");

            migrationBuilder.DropTable(
                name: "client_price");

            migrationBuilder.DropTable(
                name: "climate_reading");

            migrationBuilder.DropTable(
                name: "complaint");

            migrationBuilder.DropTable(
                name: "consumable_move");

            migrationBuilder.DropTable(
                name: "decision");

            migrationBuilder.DropTable(
                name: "delivery");

            migrationBuilder.DropTable(
                name: "device");

            migrationBuilder.DropTable(
                name: "dispatch");

            migrationBuilder.DropTable(
                name: "feed_margins");

            migrationBuilder.DropTable(
                name: "finding");

            migrationBuilder.DropTable(
                name: "fingerprint");

            migrationBuilder.DropTable(
                name: "finish_step");

            migrationBuilder.DropTable(
                name: "form_key");

            migrationBuilder.DropTable(
                name: "intake_settings");

            migrationBuilder.DropTable(
                name: "layout_settings");

            migrationBuilder.DropTable(
                name: "layout_step");

            migrationBuilder.DropTable(
                name: "loaded");

            migrationBuilder.DropTable(
                name: "lot_balance");

            migrationBuilder.DropTable(
                name: "move");

            migrationBuilder.DropTable(
                name: "numbered_print");

            migrationBuilder.DropTable(
                name: "order_fact");

            migrationBuilder.DropTable(
                name: "order_quote");

            migrationBuilder.DropTable(
                name: "pairing_code");

            migrationBuilder.DropTable(
                name: "paper_price");

            migrationBuilder.DropTable(
                name: "pieces_line");

            migrationBuilder.DropTable(
                name: "plan_settings");

            migrationBuilder.DropTable(
                name: "price_line");

            migrationBuilder.DropTable(
                name: "printer_event");

            migrationBuilder.DropTable(
                name: "proof_sheet");

            migrationBuilder.DropTable(
                name: "purchase_line");

            migrationBuilder.DropTable(
                name: "rates");

            migrationBuilder.DropTable(
                name: "register_key");

            migrationBuilder.DropTable(
                name: "room_settings");

            migrationBuilder.DropTable(
                name: "run_print");

            migrationBuilder.DropTable(
                name: "run_sheet");

            migrationBuilder.DropTable(
                name: "run_waste");

            migrationBuilder.DropTable(
                name: "setting_trial");

            migrationBuilder.DropTable(
                name: "strip_reading");

            migrationBuilder.DropTable(
                name: "supplier_closure");

            migrationBuilder.DropTable(
                name: "test_strip");

            migrationBuilder.DropTable(
                name: "tile_reading");

            migrationBuilder.DropTable(
                name: "tile_set");

            migrationBuilder.DropTable(
                name: "work_record");

            migrationBuilder.DropTable(
                name: "care_task");

            migrationBuilder.DropTable(
                name: "consumable_lot");

            migrationBuilder.DropTable(
                name: "command_record");

            migrationBuilder.DropTable(
                name: "edition");

            migrationBuilder.DropTable(
                name: "person");

            migrationBuilder.DropTable(
                name: "purchase_order");

            migrationBuilder.DropTable(
                name: "run");

            migrationBuilder.DropTable(
                name: "instrument");

            migrationBuilder.DropTable(
                name: "print_line");

            migrationBuilder.DropTable(
                name: "consumable");

            migrationBuilder.DropTable(
                name: "profile");

            migrationBuilder.DropTable(
                name: "order");

            migrationBuilder.DropTable(
                name: "reading");

            migrationBuilder.DropTable(
                name: "client");

            migrationBuilder.DropTable(
                name: "lot");

            migrationBuilder.DropTable(
                name: "printing_condition");

            migrationBuilder.DropTable(
                name: "item");

            migrationBuilder.DropTable(
                name: "printer");

            migrationBuilder.DropTable(
                name: "tolerance");

            migrationBuilder.DropTable(
                name: "format");

            migrationBuilder.DropTable(
                name: "paper");

            migrationBuilder.DropTable(
                name: "supplier");
        }
    }
}
