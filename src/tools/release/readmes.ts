/** What each artifact says of itself: what it is, what it needs, how to begin. */

const JOB = `A technician reads air velocity with an anemometer, but a room needs airflow. Vanesheet brings the arithmetic between the two
into workbooks: areas, free-area factors, averages, sweeps, air density, and how far off a number may be.`;

const CAUTIONS = `Local codes, equipment instructions and licensed trades come first. Ladders, drilling into ducts, fans and belts, old duct
tape and combustion appliances can hurt people: read "Before you measure" in the sheets' notes. Vanesheet certifies nothing.`;

const CONTENTS = `LICENSE.txt is Vanesheet's own license (MIT). THIRD-PARTY-NOTICES.txt lists what else is inside, with the license of each in
the folder licenses.`;

export const PACKAGE_README = `# vanesheet

${JOB}

    npm install -g ./vanesheet-VERSION.tgz
    vanesheet page
    vanesheet new room-balance my-job.xlsx
    vanesheet calc my-job.xlsx
    vanesheet check my-job.xlsx
    vanesheet handoff my-job.xlsx -o for-the-client.xlsx
    vanesheet rollup jobs -o summary.xlsx
    vanesheet eval "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)"
    vanesheet --help

It needs Node 20.19 or newer and installs nothing else. Nothing is sent anywhere. \`vanesheet page\` serves the workbook page
on this machine alone.

As a library, the calculation core, in inch-pound units with types:

    import { faceAirflow } from "vanesheet";

## The spreadsheet engine

page/engine.js holds o-spreadsheet and owl (LGPL-3) and nothing of ours; another build may take its place. The commands on
files do without it.

## Cautions

${CAUTIONS}

LICENSE is Vanesheet's own license (MIT). THIRD-PARTY-NOTICES.txt lists what else is inside, with the license of each in the
folder licenses.
`;

export const PAGE_README = `The Vanesheet workbook page

${JOB}

What it is
  A web page that opens, fills and saves .xlsx workbooks in the browser. Files stay on the computer: nothing is sent anywhere.

How to use it
  Put this folder on any web server that you run, with https, and open its address in Chrome, Edge, Firefox or Safari.
  After the first visit it works without a network. A browser does not run it from a folder or a zip file: it needs an
  address. With Node there is a shorter way: the command "vanesheet page" of the npm package.

Replacing the spreadsheet engine
  engine.js holds o-spreadsheet and owl (LGPL-3) and nothing of ours; another build may take its place.

${CAUTIONS}

${CONTENTS}
`;

export const ADDIN_README = `The Vanesheet add-in for Excel

${JOB}

What it is
  A folder for a web server of your firm. It holds no address of its own.

How to use it
  1. Put the folder on a web server with https that the people who use Excel can reach. Ready settings for common servers
     are in the folder.
  2. Open install.html at that address. It checks the folder and gives you manifest.xml for that very address.
  3. Give manifest.xml to your Microsoft 365 admin center, or to a trusted catalog on a network share.

It needs Excel for Microsoft 365, Excel 2021 or newer, or Excel on the web, and office.js from Microsoft's address.

${CAUTIONS}

${CONTENTS}
`;

export const WORKBOOKS_README = `Vanesheet workbooks

${JOB}

What is inside
  with VANE functions    for Excel with the Vanesheet add-in, the workbook page and the command line
  with plain formulas    the same sheets for any spreadsheet program; nothing needs to be installed
  demonstration          a filled job in an invented house, and its hand-off copy in plain formulas

Each is there in inch-pound and in metric units, for Letter and for A4. Begin with the sheet Job. Fill the shaded cells;
leave a cell empty where nothing was measured.

${CAUTIONS}

LICENSE.txt is the license (MIT).
`;
