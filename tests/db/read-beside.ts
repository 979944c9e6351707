/* Prints the names of all cars in the data folder that is named, as a command line program does beside a running host. */
import process from 'node:process'
import { openDatabase } from '../../db/open-database.ts'
import { readAllCars } from '../../db/reads.ts'

const db = openDatabase(process.argv[2] ?? '', { readonly: true })
for (const car of readAllCars(db)) console.log(car.name)
db.close()
